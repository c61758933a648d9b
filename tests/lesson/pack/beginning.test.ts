/** What a lesson on a tune begins with, against plain arithmetic on frets. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { findInstrument } from '../../../src/instrument/define.ts';
import { placesOf } from '../../../src/instrument/places.ts';
import { beginningFor } from '../../../src/lesson/pack/beginning.ts';
import { midi } from '../../../src/score/pitch.ts';
import { struckHeads } from '../../support/lesson.ts';
import { quarters } from '../../support/melody.ts';

it('is the usual lesson where the tune fits there, in the key that it has', () => {
  expect(beginningFor(quarters('F4 G4 A4 Bb4 C5 D5 E5 F5'))).toMatchObject({
    instruments: ['ukulele-low-g', 'ukulele'],
    window: { low: 4, high: 8 },
    transposition: 0,
  });
});

it('is a window in which every note of a tune of two octaves at most has a place for all', () => {
  const note = fc.constantFrom(...'C D E F G A B'.split(' '));
  const tune = fc.array(fc.tuple(note, fc.constantFrom(4, 5)), { minLength: 3, maxLength: 8 });
  fc.assert(
    fc.property(tune, notes => {
      const made = quarters(notes.map(([step, octave]) => `${step}${octave}`).join(' '));
      const { instruments, window, transposition } = beginningFor(made);
      for (const id of instruments) {
        for (const { pitch } of struckHeads(made)) {
          const frets = placesOf(findInstrument(id), midi(pitch) + transposition).map(({ fret }) => fret);
          expect(frets.some(fret => fret === 0 || (fret >= window.low && fret <= window.high))).toBe(true);
        }
      }
    }),
    { numRuns: 25 },
  );
});

it('goes by the one ukulele that holds a tune, before a guitar that holds it in fewer frets', () => {
  expect(beginningFor(quarters('D4 Eb4 E4 C6'))).toMatchObject({
    instruments: ['ukulele-low-g'],
    window: { low: 7, high: 15 },
    transposition: 0,
  });
});

it('goes by a guitar for what no ukulele has, and by the fewest notes outside where that has it neither', () => {
  expect(beginningFor(quarters('E2 E4 E5')).instruments).toEqual(['guitar']);
  const { instruments, transposition } = beginningFor(quarters('C1 C4 C8'));
  expect([instruments, transposition]).toEqual([['ukulele-low-g', 'ukulele'], 0]);
});
