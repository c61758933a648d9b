/** Difficulty counted by hand. Lengths: a 381 mm scale, fret n at L·(1 − 2^(−n/12)) from the nut. */
import { expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { difficultyOf } from '../../src/fingering/difficulty.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { bars, tuneOf } from '../support/melody.ts';

const report = (measures: readonly string[], ...frets: readonly number[]) => {
  const windows = frets.length === 2 ? wholeTune(frets[0]!, frets[1]!) : [];
  const arranged = arrange(bars(...measures), findInstrument('ukulele-low-g'), rulesFrom({ windows }));
  return { ...difficultyOf(arranged), paid: arranged.arrangement.cost / 1000 };
};

test('three notes in open position: two open strings, one crossing, no shift', () => {
  // C4 3/0, D4 3/2 with finger 2 from position I, E4 2/0.
  const easy = report(['C4 D4 E4']);
  expect(easy).toMatchObject({ notes: 3, shifts: 0, shifted: 0, crossings: 1, outside: 0, open: 2 });
  expect(easy.widestReach).toBeCloseTo(20.18, 1);
  expect(easy.cost).toBeCloseTo(easy.paid, 9);
  expect(easy.costPerNote).toBeCloseTo(easy.paid / 3, 9);
});

test('a scale in frets 4-8: one shift of one fret, three crossings, four frets under the hand', () => {
  // 4/5 4/7 | 3/4 3/5 3/7 | 2/5 2/7 2/8 | 1/5 1/7 1/8: from position IV to V between the third string and the second.
  const scale = report(['C4 D4 E4 F4', 'G4 A4 B4 C5', 'D5 E5 F5'], 4, 8);
  expect(scale).toMatchObject({ notes: 11, shifts: 1, crossings: 3, outside: 0, open: 0 });
  expect(scale.shifted).toBeCloseTo(16.97, 1);
  expect(scale.widestReach).toBeCloseTo(48.11, 1);
  expect(
    scale.measures.map(({ measure, notes, shifts, crossings }) => [measure, notes, shifts, crossings]),
  ).toEqual([
    ['1', 4, 0, 1],
    ['2', 4, 1, 1],
    ['3', 3, 0, 1],
  ]);
  expect(scale.measures.reduce((sum, { cost }) => sum + cost, 0)).toBeCloseTo(scale.cost, 9);
  // The move to the new position is the hardest.
  const [hardest] = scale.hardest;
  expect([hardest!.from.position, hardest!.to.position]).toEqual([4, 5]);
  expect(hardest!.strike.source.measure).toBe('2');
});

test('notes outside the window are counted', () => {
  const { outside, open } = report(['G3 A3 C5 D5'], 5, 8);
  expect({ outside, open }).toEqual({ outside: 1, open: 1 });
});

/** mm between two frets of a 381 mm scale. */
const mm = (from: number, to: number): number => 381 * (2 ** (-from / 12) - 2 ** (-to / 12));

test('the hardest moves come first, as many as are asked for', () => {
  const arranged = arrange(
    bars('C4 D4 E4 F4', 'G4 A4 B4 C5', 'D5 E5 F5'),
    findInstrument('ukulele-low-g'),
    rulesFrom({ windows: wholeTune(4, 8) }),
  );
  const costs = (count?: number) => difficultyOf(arranged, count).hardest.map(({ cost }) => cost);
  expect(costs()).toHaveLength(5);
  // Of eleven notes ten are reached by a move.
  expect(costs(99)).toHaveLength(10);
  expect(costs(99)).toEqual([...costs(99)].sort((a, b) => b - a));
  expect(costs(3)).toEqual(costs(99).slice(0, 3));
  // Of moves that are equally hard the first.
  const twice = difficultyOf(arranged, 99).hardest;
  twice.slice(1).forEach(({ cost, strike }, n) => {
    if (cost === twice[n]!.cost) expect(strike.at).toBeGreaterThan(twice[n]!.strike.at);
  });
});

test('reach counts from the index finger, between the fingers of a chord, and from those just used', () => {
  // F4 2/1 with finger 1, G4 2/3 with finger 3, from position I.
  const alone = report(['F4 G4'], 1, 4);
  expect(alone.widestReach).toBeCloseTo(mm(1, 3), 9);
  // F major: A3 at fret 2 of string 4 and F4 at fret 1 of string 2, the others open.
  expect(report(['A3+C4+F4+A4'], 0, 4).widestReach).toBeCloseTo(mm(1, 2), 9);
  expect(alone.comfortableReach).toBe(110);
});

test('chords cross no strings, and no notes are no trouble', () => {
  expect(report(['C4+E4 A4']).crossings).toBe(0);
  expect(report(['A4 C4+E4']).crossings).toBe(0);
  expect(report(['C4 A4']).crossings).toBe(1);
  expect(difficultyOf(arrange(tuneOf([]), findInstrument('ukulele'), rulesFrom()))).toMatchObject({
    notes: 0,
    shifts: 0,
    shifted: 0,
    widestReach: 0,
    crossings: 0,
    cost: 0,
    costPerNote: 0,
    measures: [],
    hardest: [],
  });
});

test('of equally hard moves the first stand first', () => {
  // Two steps that alternate over two strings, in one position: each kind costs the same every time.
  const { hardest } = report(['C5 A4 C5 A4', 'C5 A4 C5 A4'], 5, 8);
  const times = new Map<number, number[]>();
  for (const { cost, strike } of hardest) times.set(cost, [...(times.get(cost) ?? []), strike.at]);
  expect([...times.values()].some(each => each.length > 1)).toBe(true);
  for (const each of times.values()) expect(each).toEqual([...each].sort((a, b) => a - b));
});
