/** Which passages return, and so are fingered alike. */
import { describe, expect, test } from 'vitest';
import type { Grip } from '../../src/fingering/grip.ts';
import { problemOf } from '../../src/fingering/problem.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { type ChordEvent, DIVISION, pitchOf, tuneOfMeasures } from '../support/melody.ts';

const notes = (names: string): ChordEvent[] =>
  names.split(' ').map(name => ({ pitches: name.split('+').map(pitchOf), duration: DIVISION }));

/** The strikes that are tied to each other, of measures as given; slurs from one event to another, counted from 1. */
const tied = (measures: readonly string[], slurs: readonly (readonly [number, number])[] = []) => {
  const tune = tuneOfMeasures(
    measures.map((names, n) => ({ number: `${n + 1}`, events: notes(names) })),
    slurs,
  );
  return problemOf(tune, findInstrument('ukulele'), rulesFrom()).ties;
};

const layersOf = (...given: Parameters<typeof tied>) => tied(...given).map(({ layers }) => layers);

describe('a measure returns', () => {
  test('where its notes do, one tie a note', () => {
    expect(layersOf(['C4 D4', 'E4 D4', 'C4 D4'])).toEqual([
      [0, 4],
      [1, 5],
    ]);
  });

  test('only slurred as it was; a slur that leads into it belongs to the one before', () => {
    expect(layersOf(['C4 D4', 'C4 D4'], [[1, 2]])).toEqual([]);
    expect(layersOf(['C4 D4', 'C4 D4'], [[2, 3]])).toEqual([
      [0, 2],
      [1, 3],
    ]);
  });
});

test('tied notes agree where string, fret and finger do, all of them of a chord', () => {
  const [{ key }] = tied(['C4+E4', 'C4+E4']) as [ReturnType<typeof tied>[number]];
  const touch = (string: number, fret: number, finger: 0 | 1 | 2 | 3 | 4) => ({ string, fret, finger });
  const grips = [
    [touch(2, 5, 1)],
    [touch(2, 5, 2)],
    [touch(2, 6, 1)],
    [touch(3, 5, 1)],
    [touch(2, 5, 1), touch(3, 7, 3)],
    [touch(2, 5, 1), touch(3, 7, 4)],
    [touch(2, 5, 1), touch(3, 8, 3)],
  ].map(touches => key({ touches, position: 5 } as Partial<Grip> as Grip));
  expect(new Set(grips).size).toBe(grips.length);
});
