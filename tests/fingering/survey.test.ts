/** Every row of a survey is what arranging the notes that fit would answer. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { fitPlaces } from '../../src/fingering/candidates.ts';
import { difficultyOf } from '../../src/fingering/difficulty.ts';
import { handOn, span } from '../../src/fingering/hand.ts';
import { type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { strikesOf } from '../../src/fingering/strikes.ts';
import { ranked, survey, windowsOf } from '../../src/fingering/survey.ts';
import { slurBreak } from '../../src/fingering/terms/slur-break.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import { findInstrument, withCapo } from '../../src/instrument/define.ts';
import { midi } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';
import { bars, DIVISION, type MelodyNote, pitchOf, sharpened, tuneOf } from '../support/melody.ts';
import { shareOf } from './share.ts';

const notes = fc.array(
  fc.record({ string: fc.nat(5), fret: fc.nat(10), duration: fc.constantFrom(3, 6, 12, 24, 48) }),
  { minLength: 1, maxLength: 12 },
);

/** The melody with rests for the notes that a window does not hold. */
const fitting = (
  melody: readonly MelodyNote[],
  instrument: (typeof INSTRUMENTS)[number],
  rules: Rules,
  by: number,
): readonly MelodyNote[] => {
  const [rule] = rules.windows;
  return melody.map(({ pitch, duration }) => {
    const sound = midi(pitch!) + by;
    const demand = { sounds: [sound], window: rule!.window, fixed: [undefined], targets: [undefined] };
    const fits = fitPlaces(handOn(instrument), demand, 0, rules).length > 0;
    return { pitch: fits ? sharpened(sound) : undefined, duration };
  });
};

describe('a survey', () => {
  test('has the numbers of each window and key as if it alone were arranged', { timeout: 60_000 }, () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...INSTRUMENTS),
        notes,
        fc.constantFrom('never', 'rescue', 'free'),
        fc.integer({ min: 3, max: 6 }),
        (instrument, drawn, open, width) => {
          const melody = drawn.map(({ string, fret, duration }) => ({
            pitch: sharpened(midi(instrument.strings[string % instrument.strings.length]!) + fret),
            duration,
          }));
          const up = windowsOf(instrument, width).filter((_, n) => n % 4 === 1);
          // Open strings belong to a window that begins at the nut.
          const windows = [{ low: 0, high: width }, ...up];
          const transpositions = [-5, 0, 12];
          const tune = tuneOf(melody);
          const asked = rulesFrom({ open: open as Rules['open'], outside: 'refuse', repeats: 'free' });
          const rows = survey(strikesOf(tune).strikes, tune.division, instrument, asked, {
            windows,
            transpositions,
          });
          expect(rows.map(({ window, transposition }) => [transposition, window.low])).toEqual(
            transpositions.flatMap(by => windows.map(({ low }) => [by, low])),
          );
          for (const { window, transposition, ...row } of rows) {
            const rules = { ...asked, windows: wholeTune(window.low, window.high) };
            const left = fitting(melody, instrument, rules, transposition);
            const arranged = arrange(tuneOf(left), instrument, rules);
            const { arrangement, problem } = arranged;
            const count = problem.strikes.length;
            expect(row.fitting).toBe(count);
            expect(row.misfits).toBe(melody.length - count);
            expect(row.costPerNote * count).toBeCloseTo(arrangement.cost / 1000, 9);
            expect(row.shifts).toBe(difficultyOf(arranged).shifts);
            const reaches = [...arrangement.placements.values()].map(({ finger, fret, position }) =>
              finger === 0 ? 0 : span(problem.hand, position, fret),
            );
            expect(row.widestReach).toBeCloseTo(Math.max(0, ...reaches), 9);
            expect(row.instrument).toBe(instrument.id);
          }
        },
      ),
      { numRuns: shareOf(120), seed: 51 },
    );
  });

  test('looks at every window of so many frets up the neck', () => {
    const guitar = withCapo(findInstrument('guitar'), 3);
    const windows = windowsOf(guitar, 5);
    expect(windows).toHaveLength(13);
    expect([windows[0], windows.at(-1)]).toEqual([
      { low: 1, high: 5 },
      { low: 13, high: 17 },
    ]);
    for (const width of [17, 30]) expect(windowsOf(guitar, width)).toEqual([{ low: 1, high: 17 }]);
  });

  test('takes the top note of a chord, slurs into account, and nothing of nothing', () => {
    const ukulele = findInstrument('ukulele');
    const asked = rulesFrom({ outside: 'refuse', repeats: 'free' });
    const range = { windows: [{ low: 1, high: 5 }], transpositions: [0] };
    const rowOf = (tune: Tune) => survey(strikesOf(tune).strikes, tune.division, ukulele, asked, range)[0]!;
    const { instrument: _, ...chord } = rowOf(bars('C4+D4+F4 G4'));
    expect(chord).toEqual((({ instrument: _id, ...row }) => row)(rowOf(bars('F4 G4'))));
    expect(rowOf(tuneOf([]))).toMatchObject({
      fitting: 0,
      misfits: 0,
      costPerNote: 0,
      shifts: 0,
      widestReach: 0,
    });
    const notes = ['F4', 'C5'].map(name => ({ pitch: pitchOf(name), duration: DIVISION }));
    // F4 and C5 lie on two strings in those frets: under a slur that costs a point in all, half a point a note.
    const never = { ...asked, open: 'never' } as const;
    const costs = [[], [[1, 2] as const]].map(
      slurs =>
        survey(strikesOf(tuneOf(notes, slurs)).strikes, DIVISION, ukulele, never, range)[0]!.costPerNote,
    );
    expect(costs[1]! - costs[0]!).toBeCloseTo(slurBreak.weight / 2, 9);
  });

  test('ranks misfits before cost, and cost before the way to the key', () => {
    const row = { instrument: 'ukulele', fitting: 1, shifts: 0, widestReach: 0, window: { low: 1, high: 5 } };
    const rows = [
      { ...row, misfits: 1, costPerNote: 0, transposition: 0 },
      { ...row, misfits: 0, costPerNote: 2, transposition: 0 },
      { ...row, misfits: 0, costPerNote: 1, transposition: -1 },
      { ...row, misfits: 0, costPerNote: 1, transposition: 1, window: { low: 4, high: 8 } },
      { ...row, misfits: 0, costPerNote: 1, transposition: 1 },
      { ...row, misfits: 0, costPerNote: 1, transposition: 2 },
    ];
    // The nearer key first, of two as near the higher one; then the lower window.
    expect(ranked(rows).map(each => rows.indexOf(each))).toEqual([4, 3, 2, 5, 1, 0]);
  });
});
