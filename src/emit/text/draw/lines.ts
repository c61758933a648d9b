/** Lines of words: chord symbols, lyrics, endings, and the marks over the staff. */
import { Row } from '../row.ts';
import type { Signs } from '../signs.ts';
import type { PlacedEntry } from '../spacing.ts';
import type { PlacedMeasure, System } from '../systems.ts';
import { displayWidth, fold } from '../width.ts';

/** Entries of a system with the columns that they stand in. */
const columnsOf = (system: System): readonly (PlacedEntry & { readonly column: number })[] =>
  system.measures.flatMap(({ measure, start }) =>
    measure.entries.map(entry => ({ ...entry, column: start + entry.x })),
  );

export const chordRow = (system: System): Row => {
  const row = new Row();
  for (const { column, chord } of columnsOf(system)) row.put(column, chord, 'chord');
  return row;
};

/** Fingers of the left hand, each under its head. */
export const fingerRow = (system: System): Row => {
  const row = new Row();
  for (const { column, finger } of columnsOf(system)) row.put(column, finger, 'finger');
  return row;
};

/** Note letters, each under its head. */
export const letterRow = (system: System): Row => {
  const row = new Row();
  for (const { column, letters } of columnsOf(system)) row.put(column, letters, 'letter');
  return row;
};

/**
 * A verse under its heads; hyphens in the middle of their gap, extender lines under held notes. A word whose end
 * stands in an ending before the next one begins has its hyphen before that ending.
 */
export const lyricRow = (system: System, verse: number, heldOver: boolean): Row => {
  const row = new Row();
  let end = system.measures[0]!.start;
  let hyphen = false;
  let ending: number | undefined;
  for (const { measure, start, from } of system.measures) {
    if (measure.ending?.starts) ending = from;
    for (const { x, syllables } of measure.entries) {
      const syllable = syllables[verse];
      const column = start + x;
      if (syllable?.held) {
        row.fill(end, column + 1, '_', 'lyric');
        end = Math.max(end, column + 1);
      } else if (syllable) {
        const to = syllable.opens ? (ending ?? column) : column;
        if (hyphen) row.put(end + Math.max(0, Math.floor((to - end - 1) / 2)), '-', 'lyric');
        row.put(column, syllable.text, 'lyric');
        end = column + displayWidth(syllable.text);
        hyphen = syllable.hyphen;
        ending = undefined;
      }
    }
  }
  if (hyphen) row.put(end, '-', 'lyric');
  if (heldOver) row.fill(end, system.width - 1, '_', 'lyric');
  return row;
};

/** The verses of which a syllable of the system before is held over the first note of this one. */
export const startsHeld = (system: System): readonly number[] =>
  columnsOf(system)
    .find(({ heads }) => heads.length > 0)
    ?.syllables.flatMap((each, verse) => (each?.held ? [verse] : [])) ?? [];

export const endingRow = (system: System, signs: Signs): Row => {
  const row = new Row();
  const [start, line, stop] = signs.ending;
  for (const { measure, from, to } of system.measures) {
    const { ending } = measure;
    if (!ending) continue;
    row.fill(from, to + 1, line, 'mark');
    if (ending.starts) row.put(from, `${start}${ending.text}.`.replace(/\.\.$/, '.'), 'mark');
    if (ending.stops === 'closed') row.put(to, stop, 'mark');
  }
  return row;
};

/** As many rows as the marks need to stand clear of each other, from the top down. */
export const markRows = (system: System): readonly Row[] => {
  const rows: Row[] = [];
  for (const placed of system.measures)
    for (const { text, at, over } of placed.measure.marks) {
      const lines = fold(text, system.width - system.left);
      const width = Math.max(...lines.map(displayWidth));
      const starts = at === 0 && over === 'start';
      const column = at === 'end' ? placed.to + 1 - width : starts ? placed.from : columnAt(placed, at);
      putClear(rows, Math.max(system.left, Math.min(column, system.width - width)), lines, width);
    }
  return rows;
};

/** Puts the lines of a mark into the lowest rows with room for them all; new rows go on top. */
const putClear = (rows: Row[], column: number, lines: readonly string[], width: number): void => {
  const more = lines.length - 1;
  const isFree = (row: Row): boolean => row.isFree(column - 1, column + width + 1);
  let last = rows.findLastIndex((_, row) => rows.slice(Math.max(0, row - more), row + 1).every(isFree));
  for (; last < more; last++) rows.unshift(new Row());
  lines.forEach((line, index) => {
    rows[last - more + index]!.put(column, line, 'mark');
  });
};

/** The column of the note or rest that sounds at a time of the measure. */
const columnAt = ({ measure, start }: PlacedMeasure, at: number): number => {
  const entry = measure.entries.find(each => each.at >= at && !each.centred);
  return start + (entry?.x ?? measure.width - 1);
};
