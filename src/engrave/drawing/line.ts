/** A straight line with butt ends: staff and bar lines, stems, brackets. */
import type { Box } from './box.ts';
import type { Role } from './role.ts';

export interface LineMark {
  readonly kind: 'line';
  readonly role: Role;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly thickness: number;
  /** Lengths of dash and gap; absent for a solid line. */
  readonly dash?: readonly [number, number];
  readonly of?: number;
}

export const lineMark = {
  bounds: ({ x1, y1, x2, y2, thickness }: LineMark): Box => {
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
  place: (mark: LineMark, scale: number, dx: number, dy: number): LineMark => ({
    ...mark,
    x1: mark.x1 * scale + dx,
    y1: mark.y1 * scale + dy,
    x2: mark.x2 * scale + dx,
    y2: mark.y2 * scale + dy,
    thickness: mark.thickness * scale,
    ...(mark.dash ? { dash: [mark.dash[0] * scale, mark.dash[1] * scale] as const } : {}),
  }),
};
