/** Fourth stage: one system as lines, all of the same width. */
import type { Paint, Row } from '../row.ts';
import type { Signs } from '../signs.ts';
import type { System } from '../systems.ts';
import type { TupletSpan } from '../tuplets.ts';
import { chordRow, endingRow, fingerRow, letterRow, lyricRow, markRows, startsHeld } from './lines.ts';
import { rhythmRow, tiesOver, tupletRows } from './rhythm.ts';
import { staffRows } from './staff.ts';
import { tablatureRows } from './tablature.ts';

/** What is the same for all systems of a sheet. */
export interface SheetFrame {
  readonly signs: Signs;
  readonly tuplets: readonly TupletSpan[];
  /** Names of the strings, string 1 first; empty for a sheet without tablature. */
  readonly strings: readonly string[];
  /** Frets on the strings; without them the tablature is to be filled in. */
  readonly figures: boolean;
  /** Note letters under the heads. */
  readonly letters: boolean;
  /** What stands before the row of each verse. */
  readonly verses: readonly string[];
  readonly paint: Paint;
}

/** What runs over the ends of a system. */
export interface Seams {
  /** A tie from the system before. */
  readonly tiedInto: boolean;
  /** Verses with an extender line into the next system. */
  readonly heldOver: readonly number[];
}

/** The seams of a system between its neighbours. */
export const seamsOf = (before: System | undefined, after: System | undefined): Seams => ({
  tiedInto: before !== undefined && tiesOver(before),
  heldOver: after === undefined ? [] : startsHeld(after),
});

/** The lines of a system, all of the same width. */
export const drawSystem = (system: System, seams: Seams, frame: SheetFrame): readonly string[] => {
  const { signs, tuplets, strings, figures, letters, verses, paint } = frame;
  const above = [...markRows(system), endingRow(system, signs), chordRow(system)].filter(isUsed);
  const staff = staffRows(system, signs);
  const number = system.measures[0]!.measure.number;
  (above.at(-1) ?? staff[0]!).put(0, number, 'measure');
  const below = [
    rhythmRow(system, seams.tiedInto),
    ...tupletRows(system, tuplets, signs),
    ...verses.map((label, verse) => {
      const row = lyricRow(system, verse, seams.heldOver.includes(verse));
      if (isUsed(row)) row.put(0, label, 'lyric');
      return row;
    }),
    fingerRow(system),
    ...(letters ? [letterRow(system)] : []),
  ];
  const tablature = strings.length > 0 ? tablatureRows(system, strings, figures, signs) : [];
  const rows: readonly Row[] = [...above, ...staff, ...below.filter(isUsed), ...tablature];
  const width = Math.max(...rows.map(row => row.width));
  return rows.map(row => row.render(width, paint));
};

const isUsed = (row: Row): boolean => row.width > 0;
