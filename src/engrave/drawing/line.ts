/** A straight line with butt ends: staff and bar lines, stems, brackets. */
import type { Primitive } from './primitive.ts';
import type { Role } from './role.ts';

/** A straight line. */
export interface LineMark {
  readonly kind: 'line';
  readonly role: Role;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly thickness: number;
  /** Lengths of dash and gap; absent for a solid line. */
  readonly dash?: readonly [number, number] | undefined;
  readonly of?: number | undefined;
}

export const lineMark: Primitive<LineMark> = {
  bounds: ({ x1, y1, x2, y2, thickness }) => {
    const length = Math.hypot(x2 - x1, y2 - y1) || 1;
    const dx = (thickness / 2) * (Math.abs(y2 - y1) / length);
    const dy = (thickness / 2) * (Math.abs(x2 - x1) / length);
    return {
      left: Math.min(x1, x2) - dx,
      top: Math.min(y1, y2) - dy,
      right: Math.max(x1, x2) + dx,
      bottom: Math.max(y1, y2) + dy,
    };
  },
  place: ({ role, x1, y1, x2, y2, thickness, dash, of }, scale, dx, dy) => ({
    kind: 'line',
    role,
    x1: x1 * scale + dx,
    y1: y1 * scale + dy,
    x2: x2 * scale + dx,
    y2: y2 * scale + dy,
    thickness: thickness * scale,
    dash: dash && [dash[0] * scale, dash[1] * scale],
    of,
  }),
};
