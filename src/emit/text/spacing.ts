/**
 * Second stage: the columns of each measure. Room follows duration, less than in proportion; then
 * whatever stands in one line must not touch: accidentals, letters, syllables, chord symbols, figures.
 * The same columns serve all sheets, so that sheets with and without tablature break alike.
 */
import type { ReadingClef } from '../../instrument/instrument.ts';
import type { Ticks } from '../../score/model/duration.ts';
import type { Entry, MeasureContent } from './content.ts';
import { type Signature, type StaffSign, signatureSigns, signatureWidth } from './signature.ts';
import type { Signs } from './signs.ts';
import { displayWidth } from './width.ts';

/** A signature made of signs, and its columns. */
export interface PlacedSignature {
  readonly signs: readonly StaffSign[];
  readonly width: number;
}

/** A moment of a measure, in its column. */
export interface PlacedEntry extends Entry {
  /** Column of the notehead, counted from the first after the bar line. */
  readonly x: number;
  /** Signs of a change of key or metre at this moment, from `x` on. */
  readonly placed: PlacedSignature | undefined;
}

/** A measure whose entries have columns. */
export interface SpacedMeasure extends Omit<MeasureContent, 'entries' | 'opening' | 'change'> {
  readonly entries: readonly PlacedEntry[];
  /** Columns between the bar lines, without a signature at the start. */
  readonly width: number;
  readonly opening: PlacedSignature;
  readonly change: PlacedSignature | undefined;
}

/** How room grows with duration: twice as long, about 1.5 times the room. */
const GROWTH = 0.55;
const LEAST_ROOM = 2;
const LEAST_MEASURE = 6;

/** Columns from a note or rest of so many quarters to the next. */
const roomFor = (quarters: number, quarterRoom: number): number =>
  Math.max(LEAST_ROOM, Math.round(quarterRoom * quarters ** GROWTH));

/** How the measures of a tune are spaced. */
export interface Spacing {
  readonly division: Ticks;
  readonly clef: ReadingClef;
  readonly signs: Signs;
  /** Columns of a quarter note. */
  readonly quarterRoom: number;
}

/** Gives every entry its column. */
export const spaceMeasures = (
  measures: readonly MeasureContent[],
  spacing: Spacing,
): readonly SpacedMeasure[] => {
  const place = (signature: Signature): PlacedSignature => {
    const placed = signatureSigns(signature, spacing.clef, spacing.signs);
    return { signs: placed, width: signatureWidth(placed) };
  };
  return measures.map(measure => ({
    ...measure,
    ...spaceEntries(measure, ticks => roomFor(ticks / spacing.division, spacing.quarterRoom), place),
    opening: place(measure.opening),
    change: measure.change && place(measure.change),
  }));
};

const spaceEntries = (
  { entries, length }: MeasureContent,
  room: (ticks: Ticks) => number,
  place: (signature: Signature) => PlacedSignature,
): { readonly entries: readonly PlacedEntry[]; readonly width: number } => {
  const timed = entries.filter(entry => !entry.centred);
  const ends = new Map<string, number>();
  const placedEntries: PlacedEntry[] = [];
  let next = 1;
  timed.forEach((entry, index) => {
    const placed = entry.signature && place(entry.signature);
    const claims = claimsOf(entry, placed);
    const x = Math.max(next, ...claims.map(({ line, before }) => (ends.get(line) ?? 0) + 1 + before));
    for (const { line, after } of claims) ends.set(line, x + after);
    placedEntries.push({ ...entry, x, placed });
    const until = timed[index + 1]?.at ?? length;
    next = x + (entry.signature ? 0 : room(until - entry.at));
  });
  // A figure must not touch the bar line; words may reach it, since no bar line crosses their row.
  const width = Math.max(next, LEAST_MEASURE, (ends.get('tab') ?? 0) + 1, ...ends.values());
  const centred = entries.filter(entry => entry.centred);
  return { entries: [...placedEntries, ...centred.map(entry => centre(entry, width))], width };
};

const centre = (entry: Entry, width: number): PlacedEntry => ({
  ...entry,
  x: Math.floor((width - 1) / 2),
  placed: undefined,
});

/** Columns that an entry takes in one line of the grid: so many before its own, so many from it on. */
interface Claim {
  readonly line: string;
  readonly before: number;
  readonly after: number;
}

const claimsOf = (entry: Entry, placed: PlacedSignature | undefined): readonly Claim[] => {
  const claim = (line: string, text: string): Claim => ({ line, before: 0, after: displayWidth(text) });
  const accidental = Math.max(0, ...entry.heads.map(head => head.accidental.length));
  const staff: Claim = { line: 'staff', before: accidental, after: Math.max(1, placed?.width ?? 0) };
  return [
    staff,
    ...(entry.rhythm ? [claim('rhythm', entry.rhythm)] : []),
    ...(entry.finger ? [claim('finger', entry.finger)] : []),
    ...(entry.letters ? [claim('letter', entry.letters)] : []),
    ...(entry.chord ? [claim('chord', entry.chord)] : []),
    ...entry.syllables.flatMap((each, verse) => (each?.text ? [claim(`lyric ${verse}`, each.text)] : [])),
    ...entry.figures.map(({ text }) => claim('tab', text)),
  ];
};
