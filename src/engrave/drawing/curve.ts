/** A tapered curve (tie, slur): the area between two cubic Bézier arcs that share their ends. */
import { STYLE } from '../style.ts';
import { type Box, union } from './box.ts';
import type { Point } from './polygon.ts';
import type { Primitive } from './primitive.ts';
import type { Role } from './role.ts';

/** A slur or tie. */
export interface CurveMark {
  readonly kind: 'curve';
  readonly role: Role;
  /** Centre line: end, control, control, end. */
  readonly points: readonly [Point, Point, Point, Point];
  /** Thickness at the ends and in the middle. */
  readonly ends: number;
  readonly middle: number;
  readonly of?: number | undefined;
}

/** The point of a cubic at parameter t in 0 … 1. */
export function pointAt(points: CurveMark['points'], t: number): Point {
  const u = 1 - t;
  return [
    mix(points, 0, u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t),
    mix(points, 1, u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t),
  ];
}

const mix = (points: CurveMark['points'], axis: 0 | 1, a: number, b: number, c: number, d: number): number =>
  a * points[0][axis] + b * points[1][axis] + c * points[2][axis] + d * points[3][axis];

/** How far the arcs' control points lie from those of the centre line: a cubic bulges by 3/4 of it. */
const bulge = ({ ends, middle }: CurveMark): number => (middle - ends) / 2 / 0.75;

/** Control points of the two arcs around the area: there from the first end, back from the second. */
export function arcs(mark: CurveMark): { readonly there: [Point, Point]; readonly back: [Point, Point] } {
  const [a, b, c, d] = mark.points;
  const dx = d[0] - a[0];
  const dy = d[1] - a[1];
  const half = bulge(mark) / (Math.hypot(dx, dy) || 1);
  const nx = -dy * half;
  const ny = dx * half;
  return {
    there: [
      [b[0] + nx, b[1] + ny],
      [c[0] + nx, c[1] + ny],
    ],
    back: [
      [c[0] - nx, c[1] - ny],
      [b[0] - nx, b[1] - ny],
    ],
  };
}

/** Boxes around the pieces of a curve, one after the other. */
export function curvePieces(mark: CurveMark): Box[] {
  const points = Array.from({ length: PIECES + 1 }, (_, i) => pointAt(mark.points, i / PIECES));
  const half = mark.middle / 2;
  return points.slice(1).map(([x, y], i) => {
    const [fromX, fromY] = points[i]!;
    return {
      left: Math.min(fromX, x),
      top: Math.min(fromY, y) - half,
      right: Math.max(fromX, x),
      bottom: Math.max(fromY, y) + half,
    };
  });
}

const PIECES = 16;

export const curveMark: Primitive<CurveMark> = {
  bounds: mark => union(curvePieces(mark))!,
  place: ({ role, points: [a, b, c, d], ends, middle, of }, scale, dx, dy) => {
    const move = ([x, y]: Point): Point => [x * scale + dx, y * scale + dy];
    return {
      kind: 'curve',
      role,
      points: [move(a), move(b), move(c), move(d)],
      ends: ends * scale,
      middle: middle * scale,
      of,
    };
  },
};

export interface End {
  readonly x: number;
  readonly y: number;
}

/**
 * A curve that bows by `height` to one side (−1 up, 1 down). At `level` 0 it follows the line between its ends; at 1
 * it rises from the end that lies farther back to the height of the other, so that a steep one starts clear of what
 * it comes from.
 */
export function bow(
  role: Role,
  from: End,
  to: End,
  side: -1 | 1,
  height: number,
  of?: number,
  level = 0,
): CurveMark {
  const dx = to.x - from.x;
  const dy = to.y - from.y;
  // Control points sit a third in, more for long curves, whose middle is flatter.
  const inset = Math.min(dx * 0.36, 1.2 + dx * 0.16);
  const rise = (side * height) / 0.75;
  const outer = side < 0 ? Math.min(from.y, to.y) : Math.max(from.y, to.y);
  const towards = (y: number) => y + level * (outer - y) + rise;
  return {
    kind: 'curve',
    role,
    points: [
      [from.x, from.y],
      [from.x + inset, towards(from.y + (dy * inset) / dx)],
      [to.x - inset, towards(to.y - (dy * inset) / dx)],
      [to.x, to.y],
    ],
    ends: STYLE.curveEnds,
    middle: STYLE.curveMiddle,
    of,
  };
}
