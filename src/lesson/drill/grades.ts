/**
 * What each grade of sight-reading brings; every grade has all that the ones before it have. The order
 * (steps, skips, rhythm, leaps, accidentals) is common practice, the numbers are our judgement.
 */

export const GRADES = [1, 2, 3, 4, 5] as const;
/** How hard a drill is to read, 1 the easiest. */
export type Grade = (typeof GRADES)[number];

/** What a grade allows. */
export interface GradeRow {
  /** The widest move in steps of the staff: 1 a second, 2 a third, 7 an octave. */
  readonly widest: number;
  /** How likely a move is by its size in steps of the staff. */
  readonly moves: readonly number[];
  readonly accidentals: boolean;
}

/** By grade. */
export const GRADE_ROWS: Readonly<Record<Grade, GradeRow>> = {
  1: { widest: 1, moves: [3, 12], accidentals: false },
  2: { widest: 2, moves: [2, 10, 8], accidentals: false },
  3: { widest: 2, moves: [2, 10, 8], accidentals: false },
  4: { widest: 4, moves: [2, 9, 7, 6, 5], accidentals: false },
  5: { widest: 7, moves: [3, 9, 7, 5, 5, 4, 2, 3], accidentals: true },
};

/** A group of notes that fills whole beats. */
export interface Cell {
  /** Quarters of a beat; sixths in compound metres, where a beat has three parts. */
  readonly notes: readonly number[];
  readonly from: Grade;
  readonly weight: number;
}

/** The units of `Cell.notes` that make a beat in simple metres. */
export const SIMPLE_BEAT = 4;
/** The same in compound metres. */
export const COMPOUND_BEAT = 6;

/** Rhythms that fill beats of simple metres. */
export const SIMPLE_CELLS: readonly Cell[] = [
  { notes: [4], from: 1, weight: 10 },
  { notes: [8], from: 1, weight: 4 },
  { notes: [2, 2], from: 3, weight: 9 },
  { notes: [6, 2], from: 3, weight: 5 },
  { notes: [3, 1], from: 4, weight: 4 },
  { notes: [2, 4, 2], from: 4, weight: 5 },
  { notes: [2, 1, 1], from: 5, weight: 4 },
  { notes: [1, 1, 2], from: 5, weight: 3 },
];

/** Rhythms that fill beats of compound metres. */
export const COMPOUND_CELLS: readonly Cell[] = [
  { notes: [6], from: 1, weight: 8 },
  { notes: [4, 2], from: 1, weight: 8 },
  { notes: [12], from: 1, weight: 2 },
  { notes: [2, 2, 2], from: 3, weight: 10 },
  { notes: [3, 1, 2], from: 4, weight: 5 },
  { notes: [2, 4], from: 4, weight: 4 },
  { notes: [2, 2, 1, 1], from: 5, weight: 4 },
];
