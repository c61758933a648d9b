/**
 * A system being drawn: marks gathered by measure, with the skyline they make, so that what is added
 * later can keep clear of what is there. y = 0 is the staff's top line.
 */
import { type Box, union } from '../drawing/box.ts';
import { curvePieces } from '../drawing/curve.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import type { Role } from '../drawing/role.ts';

export class Sketch {
  /** Marks by measure index; −1 holds what belongs to the system as a whole. */
  readonly marks = new Map<number, Mark[]>();
  readonly #boxes: Box[] = [];

  /** Around all that is drawn; undefined while that is nothing. */
  get extent(): Box | undefined {
    return union(this.#boxes);
  }

  add(measure: number, marks: readonly Mark[]): void {
    const list = this.marks.get(measure);
    if (list) list.push(...marks);
    else this.marks.set(measure, [...marks]);
    // A curve is high where it bows, and low at its ends.
    for (const mark of marks)
      this.#boxes.push(...(mark.kind === 'curve' ? curvePieces(mark) : [bounds(mark)]));
  }

  /** The boxes of all marks of these roles above the staff. */
  overStaff(...roles: readonly Role[]): readonly Box[] {
    return [...this.marks.values()].flatMap(list =>
      list
        .filter(({ role }) => roles.includes(role))
        .map(bounds)
        .filter(({ bottom }) => bottom < 0),
    );
  }

  // These two look at more boxes than all else together, in code that has seldom run before: hence loops with an index.

  /** Highest ink between two x; `none` where there is none. */
  above(left: number, right: number, none: number): number {
    let top = none;
    for (let i = 0; i < this.#boxes.length; i++) {
      const box = this.#boxes[i]!;
      if (box.left < right && box.right > left && box.top < top) top = box.top;
    }
    return top;
  }

  /** Lowest ink between two x; `none` where there is none. */
  below(left: number, right: number, none: number): number {
    let bottom = none;
    for (let i = 0; i < this.#boxes.length; i++) {
      const box = this.#boxes[i]!;
      if (box.left < right && box.right > left && box.bottom > bottom) bottom = box.bottom;
    }
    return bottom;
  }
}

/** The whole system, for marks of no single measure. */
export const SYSTEM = -1;
