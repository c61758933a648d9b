/** Several empty measures as one: a bar across the staff, with their number above it. */
import type { Mark } from '../drawing/mark.ts';
import { figureRow } from '../measure/signatures.ts';
import { measureSpan, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

export function drawMultiRests(system: PlacedSystem, sketch: Sketch): void {
  for (const [measure, count] of system.notation.rests) {
    if (measure < system.line.first || measure > system.line.last) continue;
    const { content, right: end } = measureSpan(system, measure);
    const [left, right] = [content + 1.2, end - 1.2];
    const line = (x1: number, y1: number, x2: number, y2: number, thickness: number): Mark => ({
      kind: 'line',
      role: 'rest',
      x1,
      y1,
      x2,
      y2,
      thickness,
    });
    sketch.add(measure, [
      line(left, 2, right, 2, 0.75),
      line(left, 1, left, 3, 0.18),
      line(right, 1, right, 3, 0.18),
      ...figureRow(String(count), -1.7, (left + right) / 2, 'number'),
    ]);
  }
}
