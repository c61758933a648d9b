/** A scale written out: quarter or eighth notes in 4/4, the last one held. */
import type { Key } from '../../score/model/attributes.ts';
import type { Pitch } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';
import { compose, FOUR_FOUR, type Tone } from '../compose.ts';
import type { ScaleNotes } from './notes.ts';
import { type Direction, orderOf, PATTERNS, type PatternName } from './pattern.ts';
import type { ScaleRange } from './range.ts';

/** Which scale is to be written, and how it is played. */
export interface ScaleAsked {
  readonly scale: ScaleNotes;
  readonly direction: Direction;
  readonly pattern: PatternName;
}

/** Twelve ticks a quarter note, as many as any pattern needs. */
const DIVISION = 12;
const MEASURE = 4 * DIVISION;

/** A scale as a tune, and the indices of the measures in which its runs begin. */
export interface WrittenScale {
  readonly tune: Tune;
  readonly starts: readonly number[];
}

/** The notes of each range in the order and the pattern that are asked for, one range after the other. */
export const scaleTune = (asked: ScaleAsked, ranges: readonly ScaleRange[]): WrittenScale => {
  const pattern = PATTERNS[asked.pattern];
  const runs = ranges.map(({ degrees, start }) =>
    orderOf(degrees.length, start, asked.direction, pattern).map(index => degrees[index]!.pitch),
  );
  return inEqualNotes(titleOf(asked), asked.scale.key, runs, pattern.unit);
};

/** Runs of notes of equal length, in quarter notes; each begins in a measure of its own. */
export const inEqualNotes = (
  title: string,
  key: Key,
  runs: readonly (readonly Pitch[])[],
  quarters = 1,
): WrittenScale => {
  const measures = runs.map(pitches => measuresOf(pitches, quarters * DIVISION));
  const starts = startsOf(measures.map(({ length }) => length));
  const piece = { title, key, time: FOUR_FOUR, division: DIVISION, length: MEASURE };
  return { tune: compose({ ...piece, measures: measures.flat(), sections: starts }), starts };
};

/** Where each of several things begins that follow one another, by how long they are. */
const startsOf = (lengths: readonly number[]): readonly number[] =>
  lengths.map((_, index) => lengths.slice(0, index).reduce((sum, length) => sum + length, 0));

const measuresOf = (pitches: readonly Pitch[], unit: number): readonly (readonly Tone[])[] => {
  const perMeasure = MEASURE / unit;
  const measures = Array.from({ length: Math.ceil(pitches.length / perMeasure) }, (_, measure) =>
    pitches
      .slice(measure * perMeasure, (measure + 1) * perMeasure)
      .map((pitch): Tone => ({ pitch, ticks: unit })),
  );
  return measures.map((tones, index) => (index === measures.length - 1 ? held(tones) : tones));
};

const titleOf = ({ scale, pattern }: ScaleAsked): string => {
  const words = PATTERNS[pattern].words[scale.kind];
  const name = `${scale.name} ${scale.kind}`;
  return words === '' ? name : `${name} ${words}`;
};

/** The last note is held to the end of the measure, where a note value is that long and starts on a beat. */
const held = (tones: readonly Tone[]): readonly Tone[] => {
  const before = tones.slice(0, -1).reduce((sum, { ticks }) => sum + ticks, 0);
  const last = tones.at(-1)!;
  return before % DIVISION === 0 ? [...tones.slice(0, -1), { ...last, ticks: MEASURE - before }] : tones;
};
