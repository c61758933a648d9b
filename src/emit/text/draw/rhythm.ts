/** Under the staff: letters for durations with their ties, and brackets for tuplets. */
import { Row } from '../row.ts';
import type { Signs } from '../signs.ts';
import type { System } from '../systems.ts';
import type { TupletSpan } from '../tuplets.ts';

export const TIE = '~';

/** The letters; a tie runs from one to the next, over the bar line, and over the end of a system. */
export const rhythmRow = (system: System, tiedInto: boolean): Row => {
  const row = new Row();
  let tiedFrom = tiedInto ? system.measures[0]!.start : undefined;
  for (const { measure, start } of system.measures)
    for (const { x, rhythm, tied, centred } of measure.entries) {
      if (rhythm === '') continue;
      const column = start + x - (centred ? Math.floor((rhythm.length - 1) / 2) : 0);
      if (tiedFrom !== undefined) row.fill(tiedFrom, column, TIE, 'rhythm');
      row.put(column, rhythm, 'rhythm');
      tiedFrom = tied ? column + rhythm.length : undefined;
    }
  if (tiedFrom !== undefined) row.fill(tiedFrom, system.width - 1, TIE, 'rhythm');
  return row;
};

/** Does the last note of a system tie over its end? */
export const tiesOver = (system: System): boolean => {
  const notes = system.measures
    .flatMap(({ measure }) => measure.entries)
    .filter(({ rhythm }) => rhythm !== '');
  return notes.at(-1)?.tied ?? false;
};

/** One row for each depth of nesting, the inner groups nearest to the letters. */
export const tupletRows = (system: System, tuplets: readonly TupletSpan[], signs: Signs): readonly Row[] => {
  const columns = new Map<number, number>();
  for (const { measure, start } of system.measures)
    for (const { x, event } of measure.entries) if (event !== undefined) columns.set(event, start + x);
  const rows = new Map<number, Row>();
  for (const { events, text, depth } of tuplets) {
    const here = events.flatMap(event => columns.get(event) ?? []);
    if (here.length === 0) continue;
    if (!rows.has(depth)) rows.set(depth, new Row());
    drawBracket(rows.get(depth)!, here[0]!, here.at(-1)!, text, signs);
  }
  return [...rows].sort(([a], [b]) => b - a).map(([, row]) => row);
};

const drawBracket = (row: Row, from: number, to: number, text: string, signs: Signs): void => {
  const [start, line, stop] = signs.tuplet;
  if (to - from < text.length + 1) {
    row.put(from, text, 'rhythm');
    return;
  }
  row.fill(from + 1, to, line, 'rhythm');
  row.put(from, start, 'rhythm');
  row.put(to, stop, 'rhythm');
  row.put(from + Math.floor((to - from + 1 - text.length) / 2), text, 'rhythm');
};
