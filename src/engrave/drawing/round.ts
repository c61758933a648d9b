/** Round marks, as polygons of so many corners that none is seen: discs, rings, bars with round ends. */
import type { Ink } from './ink.ts';
import type { Point, PolygonMark } from './polygon.ts';
import type { Role } from './role.ts';

const CORNERS = 48;

const circle = (x: number, y: number, radius: number): Point[] =>
  Array.from({ length: CORNERS }, (_, i) => {
    const angle = (2 * Math.PI * i) / CORNERS;
    return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  });

export const disc = (role: Role, x: number, y: number, radius: number, ink?: Ink): PolygonMark => ({
  kind: 'polygon',
  role,
  points: circle(x, y, radius),
  ...(ink ? { ink } : {}),
});

/** A circle's outline, `thickness` inwards from the radius: around, and back on the inner side. */
export function ring(role: Role, x: number, y: number, radius: number, thickness: number): PolygonMark {
  const closed = (points: Point[]): Point[] => [...points, points[0]!];
  const outer = closed(circle(x, y, radius));
  const inner = closed(circle(x, y, radius - thickness)).reverse();
  return { kind: 'polygon', role, points: [...outer, ...inner] };
}

/** A bar from (x1, y) to (x2, y), rounded about both points. */
export function capsule(role: Role, x1: number, x2: number, y: number, radius: number): PolygonMark {
  const left = Math.min(x1, x2);
  const right = Math.max(x1, x2);
  const half = CORNERS / 2;
  const arc = (x: number, from: number): Point[] =>
    Array.from({ length: half + 1 }, (_, i) => {
      const angle = from + (Math.PI * i) / half;
      return [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
    });
  return { kind: 'polygon', role, points: [...arc(right, -Math.PI / 2), ...arc(left, Math.PI / 2)] };
}

export const rectangle = (
  role: Role,
  { left, top, right, bottom }: { left: number; top: number; right: number; bottom: number },
  ink?: Ink,
): PolygonMark => ({
  kind: 'polygon',
  role,
  points: [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ],
  ...(ink ? { ink } : {}),
});
