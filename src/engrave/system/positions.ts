/** Positions as Roman numerals over the notes where the hand moves. */

import { roman } from '../content/fingers.ts';
import { union } from '../drawing/box.ts';
import { bounds, move } from '../drawing/mark.ts';
import { richText } from '../measure/rich-text.ts';
import type { PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

export function drawPositions(system: PlacedSystem, sketch: Sketch): void {
  for (const { shape, x, measure } of system.notes) {
    const position = system.notation.hand.positions.get(shape.event.id);
    if (position === undefined || position < 1) continue;
    const { marks } = richText(roman(position), { role: 'position', face: 'serif', size: 1.55 });
    const box = union(marks.map(bounds))!;
    const from = x + shape.dx;
    const y = Math.min(-0.9, sketch.above(from + box.left - 0.25, from + box.right + 0.25, 0) - 0.6);
    sketch.add(measure, move(marks, from, y));
  }
}
