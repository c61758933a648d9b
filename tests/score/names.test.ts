/** Words for keys, metres and intervals; names of pitches; the beats of a metre. */
import fc from 'fast-check';
import { Mode, Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { beatsOf } from '../../src/score/beats.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import type { TimeSignature } from '../../src/score/model/attributes.ts';
import { keyName, metreName, movedName } from '../../src/score/names.ts';
import { accidentalSign, midi, pitchName, STEPS, staffStep, typedName } from '../../src/score/pitch.ts';
import { metreTicks } from '../../src/score/time.ts';

type Fraction = readonly [beats: readonly number[], beatType: number];

const metre = (...fractions: readonly Fraction[]): TimeSignature => ({
  kind: 'metred',
  fractions: fractions.map(([beats, beatType]) => ({ beats, beatType })),
  symbol: 'fraction',
});

describe('keys', () => {
  /** The major keys from seven flats to seven sharps: the circle of fifths. */
  const CIRCLE = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];
  const MODES = [
    'major',
    'ionian',
    'dorian',
    'phrygian',
    'lydian',
    'mixolydian',
    'minor',
    'aeolian',
    'locrian',
  ];

  test.each(MODES)('in the %s mode are called as a general library (tonal) calls them', mode => {
    CIRCLE.forEach((major, n) => {
      const tonic = Mode.relativeTonic(mode, 'major', major).replaceAll('#', '♯').replaceAll('b', '♭');
      expect(keyName({ fifths: n - 7, mode })).toBe(`${tonic.replace('♯♯', '𝄪')} ${mode}`);
    });
  });

  test('without a mode are major; in a mode of no known tonic, a number of signs', () => {
    expect(keyName({ fifths: 2, mode: undefined })).toBe('D major');
    expect(keyName({ fifths: 3, mode: 'other' })).toBe('3 sharps');
    expect(keyName({ fifths: -2, mode: 'other' })).toBe('2 flats');
  });
});

test('metres as they are written in a line', () => {
  expect(metreName(metre([[6], 8]))).toBe('6/8');
  expect(metreName(metre([[3, 2], 8]))).toBe('3+2/8');
  expect(metreName(metre([[3], 8], [[2], 4]))).toBe('3/8 + 2/4');
  expect(metreName({ kind: 'senza-misura' })).toBe('no metre');
  expect(metreName(undefined)).toBe('none given');
});

test('how far a tune was moved', () => {
  expect([1, -1, 5, -7, 12, -12, 24].map(movedName)).toEqual([
    'up 1 semitone',
    'down 1 semitone',
    'up 5 semitones',
    'down 7 semitones',
    'up an octave',
    'down an octave',
    'up 24 semitones',
  ]);
});

describe('beats (compound metres: common practice)', () => {
  test('are the lower number’s, threes of it in 6/8, 9/8 and 12/8, and the groups of an additive metre', () => {
    const beats = (...fractions: readonly Fraction[]) => beatsOf(metre(...fractions), 24);
    expect(beats([[4], 4])).toEqual([24, 24, 24, 24]);
    expect(beats([[2], 2])).toEqual([48, 48]);
    expect(beats([[3], 8])).toEqual([12, 12, 12]);
    expect(beats([[6], 8])).toEqual([36, 36]);
    expect(beats([[9], 8])).toEqual([36, 36, 36]);
    expect(beats([[12], 16])).toEqual([18, 18, 18, 18]);
    expect(beats([[6], 4])).toEqual([24, 24, 24, 24, 24, 24]);
    expect(beats([[7], 8])).toEqual([12, 12, 12, 12, 12, 12, 12]);
    expect(beats([[3, 2], 8])).toEqual([36, 24]);
    expect(beats([[3], 8], [[2], 4])).toEqual([12, 12, 12, 24, 24]);
  });

  test('are four quarters where there is no metre', () => {
    expect(beatsOf(undefined, 24)).toEqual([24, 24, 24, 24]);
    expect(beatsOf({ kind: 'senza-misura' }, 24)).toEqual([24, 24, 24, 24]);
  });

  test('fill the measure', () => {
    const fraction = fc.tuple(
      fc.array(fc.integer({ min: 1, max: 15 }), { minLength: 1, maxLength: 3 }),
      fc.constantFrom(1, 2, 4, 8, 16),
    );
    fc.assert(
      fc.property(fc.array(fraction, { minLength: 1, maxLength: 3 }), fractions => {
        const time = metre(...fractions);
        expect(beatsOf(time, 48).reduce((sum, beat) => sum + beat, 0)).toBe(metreTicks(time, 48));
      }),
    );
  });
});

describe('pitches', () => {
  const pitches = fc.record({
    step: fc.constantFrom(...STEPS),
    alter: fc.integer({ min: -2, max: 2 }),
    octave: fc.integer({ min: 0, max: 8 }),
  });

  test('typed mean the same to a general library (tonal), and sound the same', () => {
    fc.assert(
      fc.property(pitches, pitch => {
        const note = Note.get(typedName(pitch));
        expect({ step: note.letter, alter: note.alt, octave: note.oct }).toEqual(pitch);
        expect(note.height).toBe(midi(pitch));
        expect(typedName({ step: pitch.step, alter: pitch.alter })).toBe(note.pc);
      }),
    );
  });

  test('printed have the signs of print', () => {
    expect([-2, -1, 0, 1, 2].map(accidentalSign)).toEqual(['♭♭', '♭', '', '♯', '𝄪']);
    expect(pitchName({ step: 'F', alter: 1, octave: 4 })).toBe('F♯4');
    expect(pitchName({ step: 'B', alter: -1, octave: 3 }, false)).toBe('B♭');
  });

  test('lie on the staff by step and octave alone: C4 lies 28 steps above C0', () => {
    expect(staffStep({ step: 'C', alter: 1, octave: 4 })).toBe(28);
    expect(staffStep({ step: 'B', alter: 0, octave: 3 })).toBe(27);
    expect(staffStep({ step: 'D', alter: -1, octave: 5 })).toBe(36);
  });
});

test('a refusal says all that is wrong', () => {
  const refusal = new Refusal(
    { severity: 'error', code: 'a', message: 'one thing' },
    { severity: 'error', code: 'b', message: 'another' },
  );
  expect(refusal.message).toBe('one thing; another');
  expect(refusal.name).toBe('Refusal');
  expect(refusal.diagnostics.map(({ code }) => code)).toEqual(['a', 'b']);
});
