/** A file may ask for any transposition; answering must not take longer the farther it goes. */
import { expect, test } from 'vitest';
import { midi } from '../../src/score/pitch.ts';
import { spelt, transposePitch } from '../../src/score/transpose.ts';

test.each([3, -3, 14, -25, 12_000_003, -999_999_999])('C4 raised by %d semitones keeps its sound', alter => {
  const far = spelt({ step: 'C', alter, octave: 4 });
  expect(midi(far)).toBe(60 + alter);
  expect(Math.abs(far.alter)).toBeLessThanOrEqual(2);
});

test('a transposition by a thousand million semitones is answered', () => {
  expect(midi(transposePitch({ step: 'F', alter: 1, octave: 4 }, { steps: 0, semitones: 1e9 }))).toBe(
    66 + 1e9,
  );
});
