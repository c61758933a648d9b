/** The row of chord symbols above the staff. */
import { type Box, union } from '../drawing/box.ts';
import { bounds, move } from '../drawing/mark.ts';
import { type Standing, sharedBaseline } from './directions.ts';
import type { PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

const CHORD_BASELINE = -1.5;

/** A figure so near to a symbol on one height with it would read as part of it. */
const BESIDE_FIGURE = { left: 2, right: 3.5 };

/** The highest of them beside a chord symbol. */
function highestBeside(figures: readonly Box[], left: number, right: number): number {
  const beside = figures.filter(
    box => box.right > left - BESIDE_FIGURE.left && box.left < right + BESIDE_FIGURE.right,
  );
  return Math.min(0, ...beside.map(({ top }) => top));
}

/** Chord symbols, all on one baseline, that of directions beside them where these stand a little higher: its y. */
export function drawChords(
  system: PlacedSystem,
  directions: readonly Standing[],
  sketch: Sketch,
): number | undefined {
  const row = system.columns.flatMap(({ column, x }) => {
    const box = union(column.chord.map(bounds));
    return box
      ? [{ column, x, left: x + box.left, right: x + box.right, foot: Math.max(box.bottom, 0.1) }]
      : [];
  });
  if (row.length === 0) return undefined;
  const figures = sketch.overStaff('tuplet', 'finger', 'position');
  const least = row.map(({ left, right, foot }) => {
    const under = Math.min(sketch.above(left - 0.3, right + 0.3, 0), highestBeside(figures, left, right));
    return under - 0.55 - foot;
  });
  const y = sharedBaseline(directions, sketch, Math.min(CHORD_BASELINE, ...least), row);
  for (const { column, x } of row) sketch.add(column.measure, move(column.chord, x, y));
  return y;
}
