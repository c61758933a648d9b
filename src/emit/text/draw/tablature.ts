/** The tablature: a line a string, string 1 on top, each figure in the column of its notehead. */
import { Row } from '../row.ts';
import type { Signs } from '../signs.ts';
import type { System } from '../systems.ts';
import { drawBars } from './bars.ts';

/** One row for each name; `names` are those of the strings, string 1 first; figures only if `filled`. */
export const tablatureRows = (
  system: System,
  names: readonly string[],
  filled: boolean,
  signs: Signs,
): readonly Row[] => {
  const count = names.length;
  const dotted = dottedLines(count);
  const rows = names.map((name, index) => {
    const row = new Row();
    row.put(0, name, 'string');
    row.fill(system.left, system.width, signs.line, 'staff');
    const edge = index === 0 ? 'top' : index === count - 1 ? 'bottom' : 'inner';
    drawBars(row, system, signs, { edge, dots: dotted.includes(index) });
    return row;
  });
  for (const { measure, start } of filled ? system.measures : [])
    for (const { x, figures } of measure.entries)
      for (const { string, text, outside } of figures)
        rows[string - 1]?.put(start + x, text, outside ? 'outside' : 'digit');
  return rows;
};

/** The two lines that a repeat has its dots on: the middle ones, or those around the middle one. */
const dottedLines = (count: number): readonly number[] => {
  const middle = (count - 1) / 2;
  return Number.isInteger(middle) ? [middle - 1, middle + 1] : [middle - 0.5, middle + 0.5];
};
