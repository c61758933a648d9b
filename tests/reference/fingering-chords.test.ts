/**
 * Chord shapes that are common practice on the ukulele, frets and fingers from string 4 to string 1 (G C E A), and
 * the C major scale of the linear ukulele up the neck in two windows. Source of every case: common practice.
 */
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { handOn } from '../../src/fingering/hand.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { holdings } from '../../src/fingering/shapes.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { soundAt } from '../../src/instrument/places.ts';
import { written } from '../support/fingered.ts';
import { bars, DIVISION, sharpened, tuneOfMeasures } from '../support/melody.ts';

/** The shape as one struck chord. */
const chordOf = (id: string, frets: string) => {
  const instrument = findInstrument(id);
  const places = [...frets].map((fret, n) => ({ string: 4 - n, fret: Number(fret) }));
  const sounds = places.map(place => soundAt(instrument, place)).sort((a, b) => a - b);
  const chord = { pitches: sounds.map(sharpened), duration: DIVISION };
  return { instrument, places, tune: tuneOfMeasures([{ number: '1', events: [chord] }]) };
};

const SHAPES: readonly (readonly [string, string, string, readonly [number, number]])[] = [
  ['Am7', '0000', '0000', [0, 4]],
  ['B7', '2322', '1211', [1, 4]],
  ['Bb9 without its root', '1213', '1213', [1, 4]],
  ['F#m7b5', '2423', '1312', [2, 5]],
];

describe.each(['ukulele', 'ukulele-low-g'])('chord shapes on %s', id => {
  test.each(SHAPES)('%s is %s, fingers %s', (_name, frets, fingers, [low, high]) => {
    const { instrument, places, tune } = chordOf(id, frets);
    const held = holdings(handOn(instrument), places).map(({ touches }) =>
      touches.map(({ finger }) => finger).join(''),
    );
    expect(held).toContain(fingers);
    const { arrangement } = arrange(tune, instrument, rulesFrom({ windows: wholeTune(low, high) }));
    const found = [...arrangement.placements.values()].sort((a, b) => b.string - a.string);
    expect(found.map(({ fret }) => fret).join('')).toBe(frets);
    expect(found.map(({ finger }) => finger).join('')).toBe(fingers);
    expect(arrangement.misfits).toEqual([]);
  });

  test('a shape that is marked in the file is obeyed', () => {
    const { instrument, places, tune } = chordOf(id, '2322');
    // The same shape without a barre: fingers 1 2 3 at fret 2 and 4 at fret 3.
    const fingers = [1, 4, 2, 3];
    const [measure] = tune.measures;
    const events = measure!.events.map(event =>
      event.kind === 'note'
        ? {
            ...event,
            heads: event.heads.map(head => {
              const at = places.findIndex(
                place => sharpened(soundAt(instrument, place)).step === head.pitch.step,
              );
              return { ...head, marked: { ...places[at]!, finger: fingers[at]! } };
            }),
          }
        : event,
    );
    const marked = { ...tune, measures: [{ ...measure!, events }] };
    const { arrangement } = arrange(marked, instrument, rulesFrom({ keepMarked: true }));
    const found = [...arrangement.placements.values()].sort((a, b) => b.string - a.string);
    expect(found.map(({ fret, finger }) => `${fret}${finger}`)).toEqual(['21', '34', '22', '23']);
  });
});

describe('C major on the linear ukulele in frets 4-8, going on in frets 10-15', () => {
  const low = '4/5[2] 4/7[4] 3/4[1] 3/5[2] 3/7[4] 2/5[1] 2/7[3] 2/8[4] 1/5[1] 1/7[3] 1/8[4]';
  const high = '1/10[1] 1/12[2] 1/14[3] 1/15[4]';
  const scale = ['C4 D4 E4 F4 G4 A4 B4 C5 D5 E5 F5', 'G5 A5 B5 C6'] as const;
  const reverse = (words: string): string => words.split(' ').reverse().join(' ');
  const windows = (first: readonly [number, number], second: readonly [number, number]) =>
    [first, second].map(([from, to], n) => ({
      measures: { from: n + 1, to: n + 1 },
      window: { low: from, high: to },
    }));
  const answer = (measures: readonly string[], rules: ReturnType<typeof windows>) => {
    const { arrangement } = arrange(
      bars(...measures),
      findInstrument('ukulele-low-g'),
      rulesFrom({ windows: rules }),
    );
    return written([...arrangement.placements].sort(([a], [b]) => a - b).map(([, each]) => each));
  };

  test('up', () => {
    expect(answer(scale, windows([4, 8], [10, 15]))).toBe(`${low} ${high}`);
  });

  test('and down', () => {
    const down = [...scale].reverse().map(reverse);
    expect(answer(down, windows([10, 15], [4, 8]))).toBe(reverse(`${low} ${high}`));
  });
});
