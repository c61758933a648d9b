/**
 * The rhythm of a drill. Phrases have four measures: the third has the rhythm of the first, the fourth
 * comes to rest on a long note; a second phrase takes up the rhythm of the first, or has one of its own.
 */
import { beatsOf } from '../../score/beats.ts';
import type { TimeSignature } from '../../score/model/attributes.ts';
import type { Ticks } from '../../score/model/duration.ts';
import { type Cell, COMPOUND_BEAT, COMPOUND_CELLS, type Grade, SIMPLE_BEAT, SIMPLE_CELLS } from './grades.ts';
import type { Chance } from './random.ts';

/** Fine enough for a quarter of a beat of eighths. */
export const DIVISION = 24;

/** The lower number of a metre whose beats are whole ticks, at most. */
export const SHORTEST_BEAT = 32;

/** Measures of a phrase. */
export const PHRASE = 4;

/** Note lengths of each measure, ticks. */
export type Rhythm = readonly (readonly Ticks[])[];

interface Metre {
  readonly beats: number;
  /** Ticks of a note of length 1 in a cell. */
  readonly unit: Ticks;
  /** Length of a beat in a cell. */
  readonly beat: number;
  readonly cells: readonly Cell[];
}

const metreOf = (time: TimeSignature, grade: Grade): Metre => {
  const beats = beatsOf(time, DIVISION);
  const beatType = time.kind === 'metred' ? time.fractions[0]!.beatType : 4;
  const compound = beats[0] === (3 * 4 * DIVISION) / beatType;
  const beat = compound ? COMPOUND_BEAT : SIMPLE_BEAT;
  const unit = beats[0]! / beat;
  // In metres of short beats the finest notes would be finer than any that is read.
  const cells = (compound ? COMPOUND_CELLS : SIMPLE_CELLS).filter(
    ({ from, notes }) => from <= grade && notes.every(each => Number.isInteger(each * unit)),
  );
  return { beats: beats.length, unit, beat, cells };
};

/** Makes the rhythm of so many measures. */
export const makeRhythm = (time: TimeSignature, grade: Grade, measures: number, dice: Chance): Rhythm => {
  const metre = metreOf(time, grade);
  const made: (readonly Ticks[])[] = [];
  while (made.length < measures) {
    const left = Math.min(PHRASE, measures - made.length);
    const again = made.length >= PHRASE && dice.below(2) === 0;
    const first = again ? made[0]! : measure(metre, dice);
    const second = again ? made[1]! : measure(metre, dice);
    made.push(...[first, second, first].slice(0, left - 1), restingMeasure(metre, dice));
  }
  return made;
};

const lengthOf = ({ notes }: Cell): number => notes.reduce((sum, each) => sum + each, 0);

const ticks = ({ unit }: Metre, notes: readonly number[]): readonly Ticks[] => notes.map(each => each * unit);

/** Cells one after the other; one of two beats starts on an odd beat of metres in two and four (counted from 1). */
const measure = (metre: Metre, dice: Chance, beats = metre.beats): readonly Ticks[] => {
  const notes: number[] = [];
  for (let at = 0; at < beats; ) {
    const fitting = metre.cells.filter(cell => {
      const length = lengthOf(cell) / metre.beat;
      return at + length <= beats && (length === 1 || metre.beats % 2 === 1 || at % 2 === 0);
    });
    const cell = fitting[dice.weighted(fitting.map(each => each.weight))]!;
    notes.push(...cell.notes);
    at += lengthOf(cell) / metre.beat;
  }
  return ticks(metre, notes);
};

/** Beats that the last note of a phrase may be held, by the beats of the measure. */
const HELD: Readonly<Record<number, readonly number[]>> = { 1: [1], 2: [1, 2], 3: [2, 3], 4: [2, 4] };

/** No one note is three beats of three parts long. */
const restingMeasure = (metre: Metre, dice: Chance): readonly Ticks[] => {
  const compound = metre.beat === COMPOUND_BEAT;
  const choices = (HELD[metre.beats] ?? [2]).filter(beats => !compound || beats !== 3);
  const held = choices[dice.below(choices.length)]!;
  return [...measure(metre, dice, metre.beats - held), ...ticks(metre, [held * metre.beat])];
};
