/** A scale written out: quarter or eighth notes in 4/4, the last one held. */
import type { Key } from '../../score/model/attributes.ts';
import type { Pitch } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';
import { compose, FOUR_FOUR, type Tone } from '../compose.ts';
import type { ScaleNotes } from './notes.ts';
import { type Direction, orderOf, PATTERNS, type PatternName } from './pattern.ts';
import type { RangeAsked, ScaleRange } from './range.ts';

/** Which scale is to be written, and how it is played. */
export interface ScaleAsked extends RangeAsked {
  readonly scale: ScaleNotes;
  readonly direction: Direction;
  readonly pattern: PatternName;
}

/** Twelve ticks a quarter note, as many as any pattern needs. */
const DIVISION = 12;
const MEASURE = 4 * DIVISION;

/** The notes of a range in the order and the pattern that are asked for. */
export const scaleTune = (asked: ScaleAsked, { degrees, start }: ScaleRange): Tune => {
  const pattern = PATTERNS[asked.pattern];
  const order = orderOf(degrees.length, start, asked.direction, pattern);
  const pitches = order.map(index => degrees[index]!.pitch);
  return inEqualNotes(titleOf(asked), asked.scale.key, pitches, pattern.unit);
};

/** Notes of equal length, in quarter notes. */
export const inEqualNotes = (title: string, key: Key, pitches: readonly Pitch[], quarters = 1): Tune => {
  const unit = quarters * DIVISION;
  const perMeasure = MEASURE / unit;
  const measures = Array.from({ length: Math.ceil(pitches.length / perMeasure) }, (_, measure) =>
    pitches
      .slice(measure * perMeasure, (measure + 1) * perMeasure)
      .map((pitch): Tone => ({ pitch, ticks: unit })),
  );
  return compose({
    title,
    key,
    time: FOUR_FOUR,
    division: DIVISION,
    length: MEASURE,
    measures: measures.map((tones, index) => (index === measures.length - 1 ? held(tones) : tones)),
  });
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
