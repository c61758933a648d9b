/** Instruments that come from outside: what is read, and what is refused, with its code and in which words. */
import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import {
  findInstrument,
  midiOf,
  parseInstrument,
  parseTuning,
  withCapo,
  withTuning,
} from '../../src/instrument/define.ts';
import { openPitches, placesOf, reentrantStrings, soundRange, topFret } from '../../src/instrument/places.ts';
import { midi } from '../../src/score/pitch.ts';
import { refused } from '../support/musicxml.ts';

const FILE = { id: 'lute', name: 'Lute', strings: ['D3', 'G3'], frets: 10, scaleLength: 600 };
const lute = (said: object) => parseInstrument(JSON.stringify({ ...FILE, ...said }));

/** A note as it may be typed, in either case and with either kind of sign, and as the reference library reads it. */
const typed = fc
  .record({
    step: fc.constantFrom(...'ABCDEFGabcdefg'),
    sign: fc.constantFrom(...['', '#', 'b', '♯', '♭', '##', 'bb', '♯♯', '♭♭']),
    octave: fc.integer({ min: -1, max: 9 }),
  })
  .map(({ step, sign, octave }) => ({
    name: `${step}${sign}${octave}`,
    plain: `${step.toUpperCase()}${sign.replaceAll('♯', '#').replaceAll('♭', 'b')}${octave}`,
  }));

describe('names of notes', () => {
  test('mean what they mean to a general library (tonal)', () => {
    fc.assert(
      fc.property(typed, ({ name, plain }) => {
        const { height } = Note.get(plain);
        expect(midiOf(name)).toBe(height);
      }),
    );
  });

  test.each(['H4', 'C', '4', 'C#', 'C###4', 'C4 ', ' C4', 'C44', 'C4b', 'Cx4', ''])('"%s" is none', name => {
    expect(refused(() => midiOf(name))).toMatchObject([{ severity: 'error', code: 'bad-tuning' }]);
  });
});

describe('tunings', () => {
  test('may be set apart by spaces, commas or both', () => {
    const plain = parseTuning('G3 C4 E4 A4');
    for (const other of ['G3,C4,E4,A4', '  G3, C4,  E4 ,A4\t', 'g3\nc4 e4 a4']) {
      expect(parseTuning(other)).toEqual(plain);
      expect(withTuning(findInstrument('ukulele'), other).strings).toEqual(plain);
    }
  });

  test('have as many as twelve strings', () => {
    expect(parseTuning('C4 '.repeat(12))).toHaveLength(12);
    expect(refused(() => parseTuning('C4 '.repeat(13)))).toMatchObject([
      { severity: 'error', code: 'bad-tuning', message: expect.stringContaining('13 strings') },
    ]);
  });

  test('take the place of the tuning in the name', () => {
    const renamed = (id: string) => withTuning(findInstrument(id), 'A4,D4  F#4 B4').name;
    expect(renamed('ukulele')).toBe('Ukulele, retuned');
    expect(renamed('guitar')).toBe('Guitar, retuned');
  });
});

describe('instrument files', () => {
  test('may be as small and as large as the limits say, and no more', () => {
    const strings = (count: number) => Array.from({ length: count }, () => 'C4');
    for (const fine of [
      { frets: 1 },
      { frets: 36 },
      { strings: strings(1) },
      { strings: strings(12) },
      { scaleLength: 150 },
      { scaleLength: 1500 },
      { name: 'x'.repeat(60) },
      { id: 'a-lute-of-8' },
      { capo: 9 },
      { hand: 'two-frets-a-finger', clef: 'bass-8' },
    ])
      expect(lute(fine)).toMatchObject({ ...fine, strings: expect.any(Array) });
    for (const [wrong, where] of [
      [{ frets: 0 }, /^frets: /],
      [{ frets: 37 }, /^frets: /],
      [{ frets: 9.5 }, /^frets: /],
      [{ strings: [] }, /^strings: /],
      [{ strings: strings(13) }, /^strings: /],
      [{ strings: [4] }, /^strings: /],
      [{ scaleLength: 149 }, /^scaleLength: /],
      [{ scaleLength: 1501 }, /^scaleLength: /],
      [{ name: '' }, /^name: /],
      [{ name: 'x'.repeat(61) }, /^name: /],
      [{ id: 'A lute' }, /^id: write lower-case words/],
      [{ id: '-lute' }, /^id: /],
      [{ capo: -1 }, /^capo: /],
      [{ hand: 'left' }, /^hand: /],
      [{ frets: 0, capo: -1 }, /^frets: .*; capo: /],
      [{ colour: 1 }, /^colour: means nothing here/],
    ] as const) {
      const fault = { severity: 'error', code: 'bad-instrument-file', message: expect.stringMatching(where) };
      expect(refused(() => lute(wrong))).toMatchObject([fault]);
    }
  });

  test('that are no JSON are refused as such', () => {
    expect(refused(() => parseInstrument('{'))).toMatchObject([
      { severity: 'error', code: 'bad-instrument-file', message: expect.stringMatching(/not JSON/) },
    ]);
  });

  test('with a capo have it on', () => {
    expect(openPitches(lute({ capo: 2 }))).toEqual([57, 52]);
    expect(refused(() => lute({ capo: 10 }))).toMatchObject([{ code: 'bad-capo' }]);
  });
});

test('a capo goes on any fret but the last', () => {
  const ukulele = findInstrument('ukulele');
  for (const fret of [0, 1, 17]) expect(withCapo(ukulele, fret).capo).toBe(fret);
  for (const fret of [-1, 18, 1.5, Number.NaN])
    expect(refused(() => withCapo(ukulele, fret))).toMatchObject([
      { severity: 'error', code: 'bad-capo', hint: expect.stringContaining('1 to 17') },
    ]);
});

test('an unknown instrument is refused with the names of those there are', () => {
  expect(refused(() => findInstrument('kazoo'))).toMatchObject([
    { severity: 'error', code: 'unknown-instrument', hint: expect.stringContaining('guitar, mandolin') },
  ]);
  expect(findInstrument().id).toBe('ukulele');
});

test('the range of an instrument is that of the sounds which have a place', () => {
  fc.assert(
    fc.property(fc.constantFrom(...INSTRUMENTS), fc.nat(5), (base, capo) => {
      const instrument = withCapo(base, capo);
      const sounding = Array.from({ length: 128 }, (_, sound) => sound).filter(
        sound => placesOf(instrument, sound).length > 0,
      );
      expect(soundRange(instrument)).toEqual({ low: sounding[0], high: sounding.at(-1) });
    }),
  );
  expect(soundRange(findInstrument('ukulele-low-g'))).toEqual({ low: 55, high: 69 + 18 });
});

test('a string is re-entrant where it sounds above its neighbour nearer the floor, not where it equals it', () => {
  const strung = (tuning: string) => reentrantStrings(withTuning(findInstrument('ukulele'), tuning));
  expect(strung('G4 C4 E4 A4')).toEqual([4]);
  expect(strung('G3 C4 E4 A4')).toEqual([]);
  expect(strung('D4 D4 A4 A4')).toEqual([]);
  expect(strung('G4 C5 E4 A4')).toEqual([3]);
});

test('the last fret counts from the capo', () => {
  expect(topFret(withCapo(findInstrument('guitar'), 3))).toBe(17);
  expect(midi(parseTuning('C4')[0]!)).toBe(60);
});
