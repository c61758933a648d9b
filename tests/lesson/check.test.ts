/** Checking marks: what the solver marks passes; every kind of mistake is found where it is. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { toMusicXml } from '../../src/emit/musicxml.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { placesOf } from '../../src/instrument/places.ts';
import { checkMarks } from '../../src/lesson/check.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { midi } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';
import { pitchOf } from '../support/melody.ts';
import { attributes, bytesOf, melodyOf, note, partWise } from '../support/musicxml.ts';

const UKULELE = findInstrument('ukulele');
const LINEAR = findInstrument('ukulele-low-g');

const technical = (string?: number, fret?: number, finger?: number): string =>
  `<notations><technical>${finger === undefined ? '' : `<fingering>${finger}</fingering>`}${string === undefined ? '' : `<string>${string}</string>`}${fret === undefined ? '' : `<fret>${fret}</fret>`}</technical></notations>`;

const marked = (
  name: string,
  string?: number,
  fret?: number,
  finger?: number,
  parts: { before?: string; after?: string } = {},
) => note(name, 24, { ...parts, rest: technical(string, fret, finger) });

const faultsOf = (content: readonly string[], said: Partial<Rules> = {}, instrument = LINEAR) => {
  const [first, ...rest] = content;
  const { tune } = melodyOf(partWise(attributes() + first, ...rest), { chords: 'all' });
  return checkMarks(tune, instrument, rulesFrom(said)).faults.map(({ code, place }) => [
    code,
    place?.measure,
    place?.beat,
  ]);
};

const frets = (low: number, high: number): Partial<Rules> => ({ windows: wholeTune(low, high) });
const good = marked('C4', 4, 5) + marked('E4', 3, 4);

describe('each kind of mistake, with measure and beat', () => {
  test('none', () => expect(faultsOf([good])).toEqual([]));

  test.each([
    ['another note sounds', marked('D4', 4, 5), {}, 'place-sounds-another-note'],
    ['no fret', marked('D4', 4), {}, 'place-missing'],
    ['no string', marked('D4', undefined, 7), {}, 'place-missing'],
    ['no marks', note('D4', 24), {}, 'place-missing'],
    ['a string that is not there', marked('D4', 5, 7), {}, 'place-off-the-neck'],
    ['a fret that is not there', marked('D4', 4, 19), {}, 'place-off-the-neck'],
    ['below the window', marked('D4', 3, 2), frets(4, 8), 'place-outside-window'],
    ['above the window', marked('D5', 2, 10), frets(4, 8), 'place-outside-window'],
    ['an open string where another place is inside', marked('E4', 2, 0), frets(4, 8), 'place-outside-window'],
    ['an open string where none may sound', marked('E4', 2, 0), { open: 'never' }, 'place-outside-window'],
    ['a finger that is too far back', marked('C#4', 3, 1, 4), {}, 'place-out-of-reach'],
    ['a finger on an open string', marked('E4', 2, 0, 2), {}, 'place-out-of-reach'],
    ['no finger on a stopped one', marked('D4', 3, 2, 0), {}, 'place-out-of-reach'],
  ] as const)('%s', (_, wrong, said, code) => {
    expect(faultsOf([good, marked('C4', 4, 5) + wrong], said)).toEqual([[code, '2', 3]]);
  });

  test('an open string may rescue a note that has no place in the window', () => {
    expect(faultsOf([marked('C4', 3, 0) + marked('E4', 3, 4)], frets(4, 8), UKULELE)).toEqual([]);
    expect(faultsOf([marked('E4', 2, 0)], { ...frets(4, 8), open: 'free' })).toEqual([]);
  });

  test('a place that changes under a tie', () => {
    const start = { after: '<tie type="start"/>' };
    const stop = { after: '<tie type="stop"/>' };
    const held = (string: number, fret: number, finger?: number) => [
      marked('C4', 4, 5, 2) + marked('E4', 3, 4, 1, start),
      marked('E4', string, fret, finger, stop) + marked('C4', 4, 5),
    ];
    expect(faultsOf(held(3, 4, 1))).toEqual([]);
    expect(faultsOf(held(2, 0))).toEqual([['place-changes-under-tie', '2', 1]]);
    expect(faultsOf(held(3, 4, 2))).toEqual([['place-changes-under-tie', '2', 1]]);
  });

  test('chords: one string a note, and within reach', () => {
    const chord = (name: string, string: number, fret: number) =>
      marked(name, string, fret, undefined, { before: '<chord/>' });
    expect(faultsOf([marked('C4', 3, 0) + chord('E4', 2, 0)])).toEqual([]);
    expect(faultsOf([marked('C4', 3, 0) + chord('E4', 3, 4)])).toEqual([['string-used-twice', '1', 1]]);
    expect(faultsOf([marked('C#4', 3, 1) + chord('E5', 2, 12)])).toEqual([['place-out-of-reach', '1', 1]]);
  });

  test('one place a pitch', () => {
    const twice = [marked('E4', 3, 4) + marked('C4', 4, 5), marked('E4', 2, 0) + marked('E4', 3, 4)];
    expect(faultsOf(twice)).toEqual([]);
    expect(faultsOf(twice, { onePlace: true })).toEqual([['place-not-the-same', '2', 1]]);
  });

  test('nothing marked at all is said once', () => {
    expect(faultsOf([note('C4', 24) + note('D4', 24)])).toEqual([['no-places-marked', undefined, undefined]]);
  });
});

test('a mark passes exactly if the pitch has that place', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('C4', 'F#4', 'Bb4', 'E5', 'A5'),
      fc.integer({ min: 1, max: 5 }),
      fc.integer({ min: 0, max: 20 }),
      (name, string, fret) => {
        const right = placesOf(LINEAR, midi(pitchOf(name))).some(
          place => place.string === string && place.fret === fret,
        );
        expect(faultsOf([marked(name, string, fret)]).length === 0).toBe(right);
      },
    ),
  );
});

/** Arranges, writes, reads back and checks. */
const roundTrip = (tune: Tune, id: string, said: Partial<Rules>) => {
  const instrument = findInstrument(id);
  const rules = rulesFrom(said);
  const { arrangement } = arrange(tune, instrument, rules);
  const { score } = readScore(bytesOf(toMusicXml(tune, arrangement)));
  return {
    ...checkMarks(chooseMelody(score, { chords: 'all' }).tune, instrument, rules),
    misfits: arrangement.misfits,
  };
};

const EXAMPLES = fileURLToPath(new URL('../../examples/tunes/', import.meta.url));
const CORPUS = fileURLToPath(new URL('../../../shared/corpus/tunes/', import.meta.url));
const load = (path: string): Tune =>
  chooseMelody(readScore(readFileSync(path)).score, { chords: 'top' }).tune;

describe('what is arranged passes', () => {
  test.each(readdirSync(EXAMPLES).filter(name => name.endsWith('.musicxml')))('%s', name => {
    const tune = load(EXAMPLES + name);
    const low = roundTrip(tune, 'ukulele-low-g', frets(4, 8));
    expect(low.faults).toHaveLength(
      low.misfits.filter(({ placement }) => placement.fit === 'outside').length,
    );
    expect(roundTrip(tune, 'guitar', { onePlace: true }).faults).toEqual([]);
    // On the re-entrant ukulele exactly the notes that were played outside are named.
    const high = roundTrip(tune, 'ukulele', frets(4, 8));
    expect(high.faults.map(({ code }) => code)).toEqual(
      high.misfits.filter(({ placement }) => placement.fit === 'outside').map(() => 'place-outside-window'),
    );
  });

  test.skipIf(!existsSync(CORPUS))(
    'the corpus on a guitar (skipped where it is absent)',
    () => {
      const names = readdirSync(CORPUS)
        .filter(name => name.endsWith('.mxl'))
        .slice(0, 12);
      expect(names.length).toBeGreaterThan(0);
      for (const name of names) expect(roundTrip(load(CORPUS + name), 'guitar', {}).faults, name).toEqual([]);
    },
    60_000,
  );
});
