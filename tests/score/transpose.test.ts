/** Spelling after transposition, against tonal. */
import fc from 'fast-check';
import { Interval, Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { midi, type Pitch, STEPS } from '../../src/score/pitch.ts';
import {
  intervalInKey,
  intervalOf,
  isSpelling,
  spelt,
  transposeKey,
  transposePitch,
} from '../../src/score/transpose.ts';

const pitches: fc.Arbitrary<Pitch> = fc.record({
  step: fc.constantFrom(...STEPS),
  alter: fc.integer({ min: -1, max: 1 }),
  octave: fc.integer({ min: 1, max: 7 }),
});

const name = ({ step, alter, octave }: Pitch): string =>
  `${step}${alter < 0 ? 'b'.repeat(-alter) : '#'.repeat(alter)}${octave}`;

const NAMES = ['2m', '2M', '3m', '3M', '4P', '4A', '5d', '5P', '6m', '6M', '7m', '7M', '8P', '9M'];
const intervals = fc.constantFrom(...NAMES.flatMap(each => [each, `-${each}`]));

const numbers = (interval: string) => {
  const { step, semitones, dir, num } = Interval.get(interval);
  expect(step).toBeTypeOf('number');
  return { steps: dir! * (Math.abs(num!) - 1), semitones: semitones! };
};

describe('reference: tonal', () => {
  test('pitches are spelt as tonal spells them', () =>
    fc.assert(
      fc.property(pitches, intervals, (pitch, interval) => {
        const moved = Note.get(Note.transpose(name(pitch), interval));
        if (Math.abs(moved.alt!) > 2) return;
        expect(transposePitch(pitch, numbers(interval))).toEqual({
          step: moved.letter,
          alter: moved.alt,
          octave: moved.oct,
        });
      }),
    ));
});

test('any transposition keeps the sound, within double accidentals', () =>
  fc.assert(
    fc.property(
      pitches,
      fc.integer({ min: -24, max: 24 }),
      fc.integer({ min: -1, max: 1 }),
      (pitch, semitones, off) => {
        const interval = intervalOf(semitones);
        const moved = transposePitch(pitch, { ...interval, steps: interval.steps + off });
        expect(midi(moved)).toBe(midi(pitch) + semitones);
        expect(Math.abs(moved.alter)).toBeLessThanOrEqual(2);
      },
    ),
  ));

test('triple accidentals are respelt', () =>
  expect(spelt({ step: 'C', alter: -3, octave: 4 })).toEqual({ step: 'B', alter: -2, octave: 3 }));

test('a common interval is a spelling of itself; a third is none of an octave', () => {
  for (let semitones = -30; semitones <= 30; semitones += 1)
    expect(isSpelling(intervalOf(semitones))).toBe(true);
  expect(isSpelling({ steps: 2, semitones: 12 })).toBe(false);
  // Doubly augmented and diminished will do, up and down; more will not.
  const spelled = [-6, -5, -4, -3, -2, -1, 0, 1, 2, 3].filter(semitones =>
    isSpelling({ steps: -1, semitones }),
  );
  expect(spelled).toEqual([-4, -3, -2, -1, 0]);
  expect([-3, -2, 2, 3].filter(semitones => isSpelling({ steps: 0, semitones }))).toEqual([-2, 2]);
});

test('seven sharps and seven flats are keys to stay in', () => {
  const c = { fifths: 0, mode: undefined };
  for (const semitones of [1, -1]) {
    const chromatic = { steps: 0, semitones };
    expect(transposeKey(c, chromatic).fifths).toBe(7 * semitones);
    expect(intervalInKey(chromatic, c)).toEqual(chromatic);
  }
});

test('keys stay within seven sharps or flats', () =>
  fc.assert(
    fc.property(fc.integer({ min: -7, max: 7 }), fc.integer({ min: -12, max: 12 }), (fifths, semitones) => {
      const key = { fifths, mode: undefined };
      const interval = intervalInKey(intervalOf(semitones), key);
      const moved = transposeKey(key, interval).fifths;
      expect(Math.abs(moved)).toBeLessThanOrEqual(7);
      // Each fifth up raises the tonic by 7 semitones.
      expect((((moved - fifths) * 7 - semitones) % 12) + 0).toBe(0);
    }),
  ));
