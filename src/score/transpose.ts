/** Moving pitches and keys by an interval, with the right spelling. */
import type { Key } from './model/attributes.ts';
import { midi, type Pitch, STEPS } from './pitch.ts';

/** An interval; both numbers negative downwards. A major second up is 1 step, 2 semitones. */
export interface Interval {
  readonly steps: number;
  readonly semitones: number;
}

/** Diatonic steps in which an interval of 0 … 11 semitones is commonly spelt. */
const STEPS_OF_SEMITONES = [0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6] as const;

/** The common spelling of a number of semitones. */
export const intervalOf = (semitones: number): Interval => {
  const size = Math.abs(semitones);
  const steps = STEPS_OF_SEMITONES[size % 12]! + 7 * Math.floor(size / 12);
  return { steps: semitones < 0 ? -steps : steps, semitones };
};

const SEMITONES_OF_STEPS = [0, 2, 4, 5, 7, 9, 11] as const;

/** Whether the steps can spell the semitones: at most doubly augmented or diminished. */
export const isSpelling = ({ steps, semitones }: Interval): boolean => {
  const size = Math.abs(steps);
  const natural = SEMITONES_OF_STEPS[size % 7]! + 12 * Math.floor(size / 7);
  return Math.abs(semitones - (steps < 0 ? -natural : natural)) <= 2;
};

/** How many fifths up (sharpwards) an interval moves a key: each step back from 7 fifths is an octave's 12. */
const fifthsOf = ({ steps, semitones }: Interval): number => 7 * semitones - 12 * steps;

/**
 * The interval to use in a key so that the key it leads to has at most seven sharps or flats: the given
 * one, or its enharmonic neighbour.
 */
export const intervalInKey = (interval: Interval, key: Key): Interval => {
  const fifths = key.fifths + fifthsOf(interval);
  if (fifths > 7) return { ...interval, steps: interval.steps + 1 };
  if (fifths < -7) return { ...interval, steps: interval.steps - 1 };
  return interval;
};

/** The same mode, so far away. */
export const transposeKey = (key: Key, interval: Interval): Key => ({
  ...key,
  fifths: key.fifths + fifthsOf(interval),
});

/** The pitch an interval away; respelt where it would need more than a double accidental. */
export const transposePitch = (pitch: Pitch, { steps, semitones }: Interval): Pitch => {
  const index = STEPS.indexOf(pitch.step) + steps;
  const natural: Pitch = {
    step: STEPS[((index % 7) + 7) % 7]!,
    alter: 0,
    octave: pitch.octave + Math.floor(index / 7),
  };
  return spelt({ ...natural, alter: midi(pitch) + semitones - midi(natural) });
};

/** The same sound with an accidental that notation has: −2 … 2. */
export const spelt = (pitch: Pitch): Pitch => {
  // Whole octaves first: a file may ask for any number of semitones.
  let { step } = pitch;
  let octave = pitch.octave + Math.trunc(pitch.alter / 12);
  let alter = pitch.alter % 12;
  while (Math.abs(alter) > 2) {
    const up = alter > 0;
    const index = STEPS.indexOf(step) + (up ? 1 : -1);
    const natural: Pitch = {
      step: STEPS[(index + 7) % 7]!,
      alter: 0,
      octave: octave + Math.floor(index / 7),
    };
    alter = midi({ step, alter, octave }) - midi(natural);
    ({ step, octave } = natural);
  }
  return { step, alter, octave };
};
