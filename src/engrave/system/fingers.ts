/** Fingers over single notes: outside the staff, above all that belongs to the note. */
import { bounds, move } from '../drawing/mark.ts';
import type { PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** From the top line, and from a stem, beam or slur. */
const FROM_STAFF = 0.45;
const FROM_INK = 0.4;

export function drawFingers({ columns }: PlacedSystem, sketch: Sketch): void {
  for (const { column, x } of columns)
    for (const mark of column.fingers) {
      const { left, right, bottom } = bounds(move([mark], x, 0)[0]!);
      const under = sketch.above(left - 0.15, right + 0.15, Infinity);
      const y = Math.min(-FROM_STAFF, under - FROM_INK) - bottom;
      sketch.add(column.measure, move([mark], x, y));
    }
}
