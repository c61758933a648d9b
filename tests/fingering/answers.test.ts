/** Alternatives and regrets against exhaustive enumeration. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cheapest } from '../../src/fingering/alternatives.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { explain } from '../../src/fingering/explain.ts';
import { unlessRefused } from '../support/refused.ts';
import { type Case, cases, smallEnough } from './cases.ts';
import { shareOf } from './share.ts';
import { everyPath, placesOfGrip, placesOfPath } from './trial/paths.ts';
import type { Trial } from './trial/trial.ts';

const MOST_PATHS = 1_500;

/** Cases that have an answer, at levels and without editions to match: there the order is the cost's. */
const withAnswers = (check: (small: Case, trial: Trial) => void, numRuns: number, seed: number): number => {
  let checked = 0;
  fc.assert(
    fc.property(cases, drawn => {
      const level = drawn.rules.level === 'least' ? 'even' : drawn.rules.level;
      const plain = { ...drawn, targets: undefined, rules: { ...drawn.rules, level } };
      const found = smallEnough(plain, MOST_PATHS);
      fc.pre(found !== undefined && found.trial.layers.length > 0);
      check(found!.small, found!.trial);
      checked++;
    }),
    { numRuns: shareOf(numRuns), seed },
  );
  return checked;
};

describe('the k cheapest fingerings', () => {
  test('are those of exhaustive enumeration, in order, and all different', { timeout: 120_000 }, () => {
    let compared = 0;
    withAnswers(
      ({ tune, instrument, rules }, trial) => {
        const arranged = unlessRefused(() => arrange(tune, instrument, rules));
        if (!arranged) return;
        const answers = cheapest(arranged.problem, 6);
        const costs = new Map<string, number>();
        everyPath(trial, (path, { cost }) => {
          const key = placesOfPath(trial, path);
          costs.set(key, Math.min(cost, costs.get(key) ?? Infinity));
        });
        const expected = [...costs.values()].sort((a, b) => a - b).slice(0, 6);
        expect(answers.map(({ cost }) => cost)).toEqual(expected);
        const layers = arranged.problem.lattice.layers.map(({ grips }) => grips);
        const keys = answers.map(({ path }) => placesOfPath({ layers }, path));
        expect(new Set(keys).size).toBe(keys.length);
        expect(keys.map(key => costs.get(key))).toEqual(expected);
        compared += expected.length > 1 ? 1 : 0;
      },
      1_500,
      31,
    );
    expect(compared).toBeGreaterThan(shareOf(300));
  });
});

describe('regrets', () => {
  test('are what exhaustive enumeration says of every place', { timeout: 120_000 }, () => {
    let compared = 0;
    withAnswers(
      ({ tune, instrument, rules }, trial) => {
        const arranged = unlessRefused(() => arrange(tune, instrument, rules));
        if (!arranged) return;
        const least = trial.layers.map(() => new Map<string, number>());
        everyPath(trial, (path, { cost }) => {
          path.forEach((j, k) => {
            const key = placesOfGrip(trial.layers[k]![j]!);
            least[k]!.set(key, Math.min(cost, least[k]!.get(key) ?? Infinity));
          });
        });
        explain(arranged).forEach(({ grip, alternatives, charges }, k) => {
          for (const { places, regret, exact } of alternatives) {
            const key = places.map(({ string, fret }) => `${string}:${fret}`).join();
            const cost = (least[k]!.get(key) ?? Infinity) - arranged.found.cost;
            expect(regret).toBeCloseTo(cost / 1000, 9);
            expect(exact).toBe(true);
            compared++;
          }
          const listed = trial.layers[k]!.map(placesOfGrip).filter(key => key !== placesOfGrip(grip));
          expect(alternatives.length).toBe(new Set(listed).size);
          expect(charges.every(charge => Number.isFinite(charge.cost))).toBe(true);
        });
        const paid = explain(arranged).flatMap(({ charges }) => charges);
        const sum = paid.reduce((total, { cost }) => total + cost, 0);
        expect(sum).toBeCloseTo(arranged.arrangement.cost / 1000, 9);
      },
      1_000,
      32,
    );
    expect(compared).toBeGreaterThan(shareOf(500));
  });
});
