/** A filled polygon: beams, and rests that are plain blocks. */
import type { Ink } from './ink.ts';
import type { Primitive } from './primitive.ts';
import type { Role } from './role.ts';

/** A point on the page. */
export type Point = readonly [x: number, y: number];

/** A filled shape with straight sides. */
export interface PolygonMark {
  readonly kind: 'polygon';
  readonly role: Role;
  readonly points: readonly Point[];
  /** Black where it is absent. */
  readonly ink?: Ink | undefined;
  readonly of?: number | undefined;
}

export const polygonMark: Primitive<PolygonMark> = {
  bounds: ({ points }) => ({
    left: Math.min(...points.map(point => point[0])),
    top: Math.min(...points.map(point => point[1])),
    right: Math.max(...points.map(point => point[0])),
    bottom: Math.max(...points.map(point => point[1])),
  }),
  place: ({ role, points, ink, of }, scale, dx, dy) => ({
    kind: 'polygon',
    role,
    points: points.map(([x, y]) => [x * scale + dx, y * scale + dy] as const),
    ink,
    of,
  }),
};
