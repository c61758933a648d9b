/** A filled polygon: beams, and rests that are plain blocks. */
import type { Box } from './box.ts';
import type { Ink } from './ink.ts';
import type { Role } from './role.ts';

export type Point = readonly [x: number, y: number];

export interface PolygonMark {
  readonly kind: 'polygon';
  readonly role: Role;
  readonly points: readonly Point[];
  /** Black where it is absent. */
  readonly ink?: Ink;
  readonly of?: number;
}

export const polygonMark = {
  bounds: ({ points }: PolygonMark): Box => ({
    left: Math.min(...points.map(point => point[0])),
    top: Math.min(...points.map(point => point[1])),
    right: Math.max(...points.map(point => point[0])),
    bottom: Math.max(...points.map(point => point[1])),
  }),
  place: (mark: PolygonMark, scale: number, dx: number, dy: number): PolygonMark => ({
    ...mark,
    points: mark.points.map(([x, y]) => [x * scale + dx, y * scale + dy] as const),
  }),
};
