/** Positions as Roman numerals over the notes where the hand moves, and over their fingers. */

import { roman } from '../content/fingers.ts';
import { union } from '../drawing/box.ts';
import { bounds, move } from '../drawing/mark.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { headCentre, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** Numerals whose baselines differ by less share the higher one. */
const NEARLY = 1.6;

export function drawPositions(system: PlacedSystem, sketch: Sketch): void {
  const style = { role: 'position', face: 'serif', size: 1.55 } as const;
  const row = system.notes.flatMap(note => {
    const position = system.notation.hand.positions.get(note.shape.event.id);
    if (position === undefined || position < 1) return [];
    const marks = anchoredText(roman(position), style, headCentre(note), 0, 'middle');
    const { left, right } = union(marks.map(bounds))!;
    const y = Math.min(-0.9, sketch.above(left - 0.25, right + 0.25, 0) - 0.6);
    return [{ measure: note.measure, marks, y }];
  });
  let shared = -Infinity;
  for (const { measure, marks, y } of row.sort((one, other) => one.y - other.y)) {
    if (!(y - shared < NEARLY)) shared = y;
    sketch.add(measure, move(marks, 0, shared));
  }
}
