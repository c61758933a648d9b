/** Positions as Roman numerals over the notes where the hand moves, and over their fingers. */

import { roman } from '../content/fingers.ts';
import { union } from '../drawing/box.ts';
import { bounds, move } from '../drawing/mark.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { headCentre, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

export function drawPositions(system: PlacedSystem, sketch: Sketch): void {
  for (const note of system.notes) {
    const { shape, measure } = note;
    const position = system.notation.hand.positions.get(shape.event.id);
    if (position === undefined || position < 1) continue;
    const style = { role: 'position', face: 'serif', size: 1.55 } as const;
    const marks = anchoredText(roman(position), style, headCentre(note), 0, 'middle');
    const { left, right } = union(marks.map(bounds))!;
    const y = Math.min(-0.9, sketch.above(left - 0.25, right + 0.25, 0) - 0.6);
    sketch.add(measure, move(marks, 0, y));
  }
}
