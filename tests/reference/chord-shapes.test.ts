/**
 * Shapes against the open chord data set @tombatossals/chords-db (npm, MIT licence).
 *
 * Common kinds, our choice: triads (major, minor, dim, aug, sus2, sus4), sixths (6, m6, 69), sevenths (7,
 * maj7, m7, m7b5, dim7, mmaj7, 7sus4), ninths (9, maj9, m9, add9); all twelve roots of each.
 *
 * On the ukulele a shape agrees if every string is the same. On the guitar it agrees if it is the same on
 * every string that sounds in both: how many outer strings to strike is a matter of taste.
 */
import guitarData from '@tombatossals/chords-db/lib/guitar.json' with { type: 'json' };
import ukuleleData from '@tombatossals/chords-db/lib/ukulele.json' with { type: 'json' };
import { describe, expect, test } from 'vitest';
import { pitchClass, toneClass } from '../../src/lesson/chords/chord.ts';
import { soundsOf, type Voicing } from '../../src/lesson/chords/shape.ts';
import { chordShapes } from '../../src/lesson/chords/shapes.ts';
import { chord, handOf } from '../lesson/chords/support.ts';

/** The data set's names of kinds, as symbols are typed. */
const COMMON: Readonly<Record<string, string>> = {
  major: '',
  minor: 'm',
  dim: 'dim',
  aug: 'aug',
  sus2: 'sus2',
  sus4: 'sus4',
  '6': '6',
  m6: 'm6',
  '69': '6/9',
  '7': '7',
  maj7: 'maj7',
  m7: 'm7',
  m7b5: 'm7b5',
  dim7: 'dim7',
  mmaj7: 'mMaj7',
  '7sus4': '7sus4',
  '9': '9',
  maj9: 'maj9',
  m9: 'm9',
  add9: 'add9',
};

interface Entry {
  readonly key: string;
  readonly suffix: string;
  readonly positions: readonly { readonly frets: readonly number[]; readonly baseFret: number }[];
}

const entriesOf = (data: { readonly chords: Readonly<Record<string, readonly Entry[]>> }): readonly Entry[] =>
  Object.values(data.chords)
    .flat()
    .filter(({ suffix }) => suffix in COMMON);

/** Frets by string, string 1 first. */
const voicingsOf = ({ positions }: Entry): readonly Voicing[] =>
  positions.map(({ frets, baseFret }) =>
    frets.map(fret => (fret < 0 ? undefined : fret === 0 ? 0 : fret + baseFret - 1)).reverse(),
  );

const alike = (a: Voicing, b: Voicing): boolean => a.every((fret, index) => fret === b[index]);
const alikeWhereBothSound = (a: Voicing, b: Voicing): boolean =>
  a.every((fret, index) => fret === undefined || b[index] === undefined || fret === b[index]);

describe.each([
  ['ukulele', entriesOf(ukuleleData), alike],
  ['guitar', entriesOf(guitarData), alikeWhereBothSound],
] as const)('the first three shapes on the %s', (id, entries, agrees) => {
  test('contain one of the data set for at least 95 % of its common chords', { timeout: 120_000 }, () => {
    const hand = handOf(id);
    const missed = entries.filter(entry => {
      const shapes = chordShapes(hand, chord(entry.key + COMMON[entry.suffix]!), {}, 3);
      return !voicingsOf(entry).some(theirs => shapes.some(({ frets }) => agrees(theirs, frets)));
    });
    expect(entries.length).toBe(240);
    expect(
      1 - missed.length / entries.length,
      missed.map(({ key, suffix }) => `${key} ${suffix}`).join(', '),
    ).toBeGreaterThanOrEqual(0.95);
  });

  test('sound no note outside the chord', { timeout: 120_000 }, () => {
    const hand = handOf(id);
    for (const { key, suffix } of entries) {
      const each = chord(key + COMMON[suffix]!);
      const allowed = new Set([...each.tones.map(toneClass), ...(each.bass ? [pitchClass(each.bass)] : [])]);
      for (const { frets } of chordShapes(hand, each, {}, 3)) {
        for (const sound of soundsOf(hand, frets)) expect(allowed).toContain(sound % 12);
      }
    }
  });
});
