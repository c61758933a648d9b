/** Exact time: ticks of measures and note values, and the value that a number of ticks is written as. */

import type { TimeSignature } from './model/attributes.ts';
import type { NoteValue, Ticks } from './model/duration.ts';

/** The greatest common divisor. */
export const gcd = (a: number, b: number): number => {
  let [big, small] = [a, b];
  while (small !== 0) [big, small] = [small, big % small];
  return big;
};

/** The least common multiple. */
export const lcm = (a: number, b: number): number => (a / gcd(a, b)) * b;

/** Ticks of a measure that its time signature fills; undefined without a metre. */
export const metreTicks = (time: TimeSignature | undefined, division: Ticks): Ticks | undefined => {
  if (time?.kind !== 'metred') return undefined;
  let sum = 0;
  for (const { beats, beatType } of time.fractions) {
    for (const beat of beats) sum += (beat * 4 * division) / beatType;
  }
  return sum;
};

/** Ticks of a written value; not an integer where the division is too coarse for it. */
export const valueTicks = (value: NoteValue, division: Ticks): number => {
  const { actual, normal } = value.ratio ?? { actual: 1, normal: 1 };
  const dots = 2 ** value.dots;
  return (4 * division * (2 * dots - 1) * normal) / (value.base * dots * actual);
};

/** From the long to the 1024th note: MusicXML's note types, as denominators. */
export const BASES = [0.25, 0.5, 1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 1024] as const;

/** The usual tuplets, the commonest first. */
const RATIOS: readonly NoteValue['ratio'][] = [
  undefined,
  { actual: 3, normal: 2 },
  { actual: 5, normal: 4 },
  { actual: 7, normal: 4 },
  { actual: 9, normal: 8 },
  { actual: 11, normal: 8 },
  { actual: 13, normal: 8 },
  { actual: 15, normal: 8 },
];

/** The simplest written value that lasts exactly so long, with the given ratio if there is one. */
export const exactValue = (
  ticks: number,
  division: Ticks,
  ratio?: NoteValue['ratio'],
): NoteValue | undefined => {
  for (const each of ratio === undefined ? RATIOS : [ratio]) {
    // Nobody writes a tuplet of doubly dotted notes where a plain value would do.
    for (const dots of each === ratio ? [0, 1, 2, 3] : [0, 1]) {
      for (const base of BASES) {
        const value = { base, dots, ratio: each };
        if (Math.abs(valueTicks(value, division) - ticks) < 1e-6) return value;
      }
    }
  }
  return undefined;
};

/** The longest undotted or dotted value that is no longer; the shortest note where none is. */
export const nearestValue = (ticks: number, division: Ticks): NoteValue => {
  for (const base of BASES) {
    for (const dots of [1, 0]) {
      const value = { base, dots, ratio: undefined };
      if (valueTicks(value, division) <= ticks) return value;
    }
  }
  return { base: 1024, dots: 0, ratio: undefined };
};

/** A rest to be written. */
export interface Span {
  readonly at: Ticks;
  readonly ticks: Ticks;
  readonly value: NoteValue;
}

/**
 * Cuts a silence into rests that can be written and that respect the beat: each starts at a multiple
 * of its own undotted length, counted from the measure's start (common practice).
 */
export const writtenRests = (from: Ticks, to: Ticks, division: Ticks): readonly Span[] => {
  const spans: Span[] = [];
  let at = from;
  while (at < to) {
    const ticks = alignedLength(at, to - at, division);
    const value = exactValue(ticks, division) ?? nearestValue(ticks, division);
    spans.push({ at, ticks, value });
    at += ticks;
  }
  return spans;
};

/** The longest power-of-two length that fits and divides `at`; what is left over where none does. */
const alignedLength = (at: Ticks, room: Ticks, division: Ticks): Ticks => {
  for (const base of BASES) {
    const ticks = (4 * division) / base;
    if (base >= 1 && Number.isInteger(ticks) && ticks <= room && at % ticks === 0) return ticks;
  }
  // Off every beat of the grid (the middle of a tuplet): one rest up to the next quarter, or the end.
  return Math.min(room, division - (at % division));
};
