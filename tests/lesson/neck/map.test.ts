/** The neck map against the arrangement it is made from. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arrange } from '../../../src/fingering/arrange.ts';
import { rulesFrom, wholeTune } from '../../../src/fingering/rules.ts';
import { findInstrument, withCapo } from '../../../src/instrument/define.ts';
import { placesOf, soundAt } from '../../../src/instrument/places.ts';
import { neckMap, windowsName } from '../../../src/lesson/neck/map.ts';
import { markersAt } from '../../../src/lesson/neck/markers.ts';
import { midi } from '../../../src/score/pitch.ts';
import { bars, pitchOf, tuneOf } from '../../support/melody.ts';

const NAMES = ['G4', 'A4', 'Bb4', 'C5', 'D5', 'E5', 'F#5', 'G5'] as const;

describe('a neck map', () => {
  test('has the places of the arrangement, and all other places of the same pitches', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(...NAMES), { minLength: 1, maxLength: 12 }),
        fc.constantFrom('ukulele', 'ukulele-low-g', 'guitar', 'mandolin'),
        (names, id) => {
          const instrument = findInstrument(id);
          const tune = tuneOf(names.map(name => ({ pitch: pitchOf(name), duration: 12 })));
          const { arrangement } = arrange(tune, instrument, rulesFrom({ windows: wholeTune(3, 9) }));
          const { places } = neckMap(tune, arrangement);
          const key = ({ string, fret }: { string: number; fret: number }) => `${string}:${fret}`;
          const used = places.filter(({ kind }) => kind === 'used');
          expect(new Set(used.map(key))).toEqual(new Set([...arrangement.placements.values()].map(key)));
          expect(used.reduce((sum, place) => sum + (place.kind === 'used' ? place.count : 0), 0)).toBe(
            names.length,
          );
          const pitches = new Set(names.map(name => midi(pitchOf(name))));
          const all = [...pitches].flatMap(sound => placesOf(instrument, sound)).map(key);
          expect(places.map(key).sort()).toEqual(all.sort());
          for (const place of places) expect(soundAt(instrument, place)).toBe(midi(place.pitch));
        },
      ),
      { numRuns: 40, seed: 5 },
    );
  });

  test('marks the keynote by its spelling', () => {
    const tune = tuneOf(['Bb4', 'C5', 'Bb5'].map(name => ({ pitch: pitchOf(name), duration: 12 })));
    const { arrangement } = arrange(tune, findInstrument('ukulele'), rulesFrom());
    const { places } = neckMap(tune, arrangement, { step: 'B', alter: -1 });
    expect(new Set(places.filter(({ tonic }) => tonic).map(({ pitch }) => pitch.step))).toEqual(
      new Set(['B']),
    );
    expect(places.filter(({ tonic }) => !tonic).every(({ pitch }) => pitch.step === 'C')).toBe(true);
  });

  test('does not reach beyond the neck', () => {
    const instrument = withCapo(findInstrument('ukulele'), 5);
    const tune = tuneOf([{ pitch: pitchOf('D6'), duration: 12 }]);
    const { arrangement } = arrange(tune, instrument, rulesFrom());
    expect(neckMap(tune, arrangement).lastFret).toBeLessThanOrEqual(13);
  });
});

test('a window that several passages have is one window', () => {
  const passage = (from: number, low: number, high: number) => ({
    measures: { from, to: from },
    window: { low, high },
  });
  const tune = bars('G4', 'C5', 'G4');
  const rules = rulesFrom({ windows: [passage(1, 2, 6), passage(2, 5, 9), passage(3, 2, 6)] });
  const { arrangement } = arrange(tune, findInstrument('ukulele'), rules);
  expect(windowsName(neckMap(tune, arrangement))).toBe('frets 2–6 and 5–9');
});

test('windows are named in one phrase', () => {
  const named = (...windows: readonly (readonly [number, number])[]) =>
    windowsName({ windows: windows.map(([low, high]) => ({ low, high })) });
  expect(named()).toBe('');
  expect(named([5, 5])).toBe('fret 5');
  expect(named([2, 6])).toBe('frets 2–6');
  expect(named([2, 6], [9, 9], [5, 9])).toBe('frets 2–6, 9 and 5–9');
});

test('markers lie where they are on the instruments (common practice, from memory)', () => {
  const marked = (id: string) =>
    Array.from({ length: 17 }, (_, fret) => fret).filter(fret => markersAt(findInstrument(id), fret) > 0);
  expect(marked('ukulele')).toEqual([3, 5, 7, 10, 12, 15]);
  expect(marked('guitar')).toEqual([3, 5, 7, 9, 12, 15]);
  expect(markersAt(findInstrument('guitar'), 12)).toBe(2);
});
