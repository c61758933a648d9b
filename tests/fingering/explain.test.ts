/** Why a note is where it is: what was paid, what other places would cost. */
import { expect, test } from 'vitest';
import { cheapest } from '../../src/fingering/alternatives.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { explain, placesKey } from '../../src/fingering/explain.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { bars } from '../support/melody.ts';

const explained = (measures: readonly string[], said: Parameters<typeof rulesFrom>[0] = {}) => {
  const arranged = arrange(bars(...measures), findInstrument('ukulele-low-g'), rulesFrom(said));
  return { ...arranged, all: explain(arranged) };
};

test('every place of a note but its own is an alternative, the cheapest first', () => {
  // A4: open on string 1, fret 5 of string 2, 9 of 3, 14 of 4.
  const { all } = explained(['A4 C5']);
  expect(placesKey(all[0]!.grip)).toBe('1:0');
  const places = all[0]!.alternatives.map(each =>
    each.places.map(({ string, fret }) => `${string}:${fret}`).join(),
  );
  expect([...places].sort()).toEqual(['2:5', '3:9', '4:14']);
  const regrets = all[0]!.alternatives.map(({ regret }) => regret);
  expect(regrets).toEqual([...regrets].sort((a, b) => a - b));
  expect(Math.min(...regrets)).toBeGreaterThanOrEqual(0);
});

test('only what is asked for is explained', () => {
  const second = explain(explained(['C4 D4', 'E4 F4']), ({ measure }) => measure === 1);
  expect(second.map(({ strike }) => strike.sounds)).toEqual([[64], [65]]);
});

test('charges name what was paid and in which unit, the first note no move', () => {
  const { all } = explained(['A4 C5'], { windows: wholeTune(9, 14), open: 'never' });
  const names = all.map(({ charges }) => charges.map(({ term, unit }) => `${term}/${unit}`));
  for (const each of names) expect(each).toContain('height on the neck/mm');
  expect(all.flatMap(({ charges }) => charges).every(({ cost }) => cost !== 0)).toBe(true);
  // The first note has no move before it.
  expect(names[0]!.some(name => name.startsWith('shift'))).toBe(false);
});

test('in passages that return a place is priced for all of them at once', () => {
  const same = explained(['A4 C5', 'A4 C5']);
  const free = explained(['A4 C5', 'A4 C5'], { repeats: 'free' });
  const regret = ({ all }: typeof same, k: number, place: string) =>
    all[k]!.alternatives.find(
      ({ places }) => places.map(({ string, fret }) => `${string}:${fret}`).join() === place,
    )!.regret;
  expect(regret(same, 0, '2:5')).toBe(regret(same, 2, '2:5'));
  expect(regret(same, 0, '2:5')).toBeGreaterThan(regret(free, 0, '2:5'));
  expect(same.all.flatMap(({ alternatives }) => alternatives).every(({ exact }) => exact)).toBe(true);
});

test('each place is priced as the whole tune costs with that place, in all returns of a passage', () => {
  // The second measure returns in the fourth.
  const measures = ['A4 C5 D5 E5', 'A4 E5', 'G4 D5', 'A4 E5'];
  const returns: Readonly<Record<string, readonly string[]>> = { 2: ['2', '4'], 4: ['2', '4'] };
  for (const repeats of ['same', 'free'] as const) {
    const { all, found } = explained(measures, { repeats });
    for (const { strike, alternatives } of all) {
      const { measure } = strike.source;
      const together = repeats === 'same' ? (returns[measure] ?? [measure]) : [measure];
      for (const { places, regret } of alternatives) {
        const pins = together.map(each => ({
          kind: 'beat' as const,
          measure: each,
          beat: strike.beat,
          place: places[0]!,
        }));
        const forced = explained(measures, { repeats, pins });
        expect(1000 * regret).toBeCloseTo(forced.found.cost - found.cost, 6);
      }
      const order = alternatives.map(each => each.regret);
      expect(order).toEqual([...order].sort((a, b) => a - b));
    }
  }
});

test('where there is but one fingering it is the only answer, and none costs none', () => {
  const { problem, found } = explained(['G3']);
  expect(cheapest(problem, 5).map(({ cost }) => cost)).toEqual([found.cost]);
  expect(cheapest(problem, 0)).toEqual([]);
});
