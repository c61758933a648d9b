/** Keys by name, and the way there: what is reached is the key that was named, by the nearest way. */
import fc from 'fast-check';
import { Key as TonalKey } from 'tonal';
import { describe, expect, it, test } from 'vitest';
import { Refusal } from '../../src/score/diagnostic.ts';
import { keyName } from '../../src/score/names.ts';
import { midi, typedName } from '../../src/score/pitch.ts';
import { transposeKey } from '../../src/score/transpose.ts';
import { intervalTo, keyNamed, moveTo, nearestKey } from '../../src/score/transpose-to-key.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import { attributes, note, refused, tuneFrom } from '../support/musicxml.ts';

/** Major and minor keys of at most seven accidentals, as the circle of fifths has them (common practice). */
const MAJOR = ['Cb', 'Gb', 'Db', 'Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#'];
const MINOR = ['Ab', 'Eb', 'Bb', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F#', 'C#', 'G#', 'D#', 'A#'];

const signatures = fc.integer({ min: -7, max: 7 });

describe('a key that is named', () => {
  test('is reached, spelt as it was named, by six semitones at most', () => {
    fc.assert(
      fc.property(signatures, signatures, fc.constantFrom('major', 'minor'), (from, to, mode) => {
        const tonic = (mode === 'major' ? MAJOR : MINOR)[to + 7]!;
        const interval = intervalTo(keyNamed(`${tonic} ${mode}`)!, { fifths: from, mode });
        expect(transposeKey({ fifths: from, mode }, interval)).toEqual({ fifths: to, mode });
        expect(Math.abs(interval.semitones)).toBeLessThanOrEqual(6);
        expect(interval.semitones).not.toBe(-6);
      }),
    );
  });

  test('has the signature that tonal gives it', () => {
    MAJOR.forEach(tonic => {
      const { semitones, steps } = intervalTo(keyNamed(tonic)!, { fifths: 0, mode: 'major' });
      expect(7 * semitones - 12 * steps).toBe(TonalKey.majorKey(tonic).alteration);
    });
  });

  it.each([
    ['C', 'C', undefined],
    ['b flat', 'Bb', undefined],
    ['B♭ Major', 'Bb', 'major'],
    ['F-sharp minor', 'F#', 'minor'],
    ['Am', 'A', 'minor'],
    ['bm', 'B', 'minor'],
    ['bbm', 'Bb', 'minor'],
    ['GM', 'G', 'major'],
    ['E dorian', 'E', 'dorian'],
    [' G ', 'G', undefined],
  ])('is read as players write it: %s', (text, tonic, mode) => {
    const asked = keyNamed(text)!;
    expect([typedName(asked.tonic), asked.mode]).toEqual([tonic, mode]);
  });

  it.each(['H', 'C minro', 'best', '', '3', 'G7', 'C pentatonic', 'Cflatter'])('is none: "%s"', text => {
    expect(keyNamed(text)).toBeUndefined();
  });

  it('may be meant where its mode is mistyped', () => {
    const meant = {
      'G minro': 'G minor',
      'bb majr': 'Bb major',
      Bbmajr: 'Bb major',
      ' F# mixolydain ': 'F# mixolydian',
      'E flat majr': 'E flat major',
      'e-flat majr': 'E-flat major',
    };
    for (const [typed, name] of Object.entries(meant)) expect(nearestKey(typed)).toBe(name);
    for (const none of ['X minor', 'XG minro', 'G minro 2', 'C', ''])
      expect(nearestKey(none)).toBeUndefined();
  });

  it('keeps the mode of the tune where it names none, and goes by the signature where the file names none', () => {
    expect(intervalTo(keyNamed('G')!, { fifths: 1, mode: 'minor' })).toEqual({ steps: 2, semitones: 3 });
    expect(intervalTo(keyNamed('A minor')!, { fifths: 1, mode: undefined })).toEqual({
      steps: 3,
      semitones: 5,
    });
  });

  it.each([
    ['G minor', { fifths: 0, mode: 'major' }, /in C major, and moving it does not make it minor/],
    ['Fb minor', { fifths: 0, mode: 'major' }, /F♭ minor would need a key signature of 11 flats/],
    ['G', { fifths: 0, mode: 'none' }, /no key that has a name/],
    ['G#', { fifths: 0, mode: 'major' }, /G♯ major would need a key signature of 8 sharps/],
    ['Fb', { fifths: 0, mode: undefined }, /8 flats/],
  ] as const)('is refused: %s for %o', (name, key, message) => {
    expect(() => intervalTo(keyNamed(name)!, key)).toThrow(Refusal);
    expect(() => intervalTo(keyNamed(name)!, key)).toThrow(message);
  });
});

it.each([
  [
    'G minor',
    'major',
    /^name a key of its own mode, such as "B♭ major", which has the signature of G minor; or /,
  ],
  ['G#', 'major', /, with flats$/],
  ['Fb', 'major', /, with sharps$/],
  ['G', 'none', /semitones$/],
])('a key that cannot be reached is answered with what can: %s in %s', (name, mode, hint) => {
  expect(refused(() => intervalTo(keyNamed(name)!, { fifths: 0, mode }))).toMatchObject([
    { severity: 'error', code: 'cannot-reach-key', hint: expect.stringMatching(hint) },
  ]);
});

it('a tune may keep its sound and change its spelling', () => {
  const sharp = tuneFrom(`${attributes('<key><fifths>7</fifths></key>')}${note('C#4', 48)}`);
  const flat = transposeTune(sharp, moveTo(keyNamed('Db')!, sharp));
  expect(keyName(flat.measures[0]!.key)).toBe('D♭ major');
  expect(flat.transposition).toBe(0);
  const [event] = flat.measures[0]!.events;
  expect(event?.kind === 'note' && event.heads[0]!.pitch).toEqual({ step: 'D', alter: -1, octave: 4 });
  expect(transposeTune(sharp, moveTo(keyNamed('C#')!, sharp))).toBe(sharp);
});

it('a tune goes there with all its pitches, and later keys stay within seven accidentals', () => {
  const tune = tuneFrom(
    `${attributes()}${note('C4', 48)}`,
    `<attributes><key><fifths>4</fifths></key></attributes>${note('E4', 48)}`,
  );
  const moved = transposeTune(tune, moveTo(keyNamed('F#')!, tune));
  const [first, later] = moved.measures;
  expect([first, later].map(each => keyName(each!.key))).toEqual(['F♯ major', 'B♭ major']);
  const sounds = moved.measures.flatMap(({ events }) =>
    events.flatMap(event => (event.kind === 'note' ? event.heads.map(({ pitch }) => midi(pitch)) : [])),
  );
  expect(sounds).toEqual([66, 70]);
});
