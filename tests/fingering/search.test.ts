/** Search, balance and cut on lattices of plain numbers, against every path there is. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balance } from '../../src/fingering/balance.ts';
import { DIFFERENCE, type Lattice, narrowed } from '../../src/fingering/lattice.ts';
import { solveHardest, withoutHarderSteps } from '../../src/fingering/least.ts';
import { cut } from '../../src/fingering/reduce.ts';
import { search } from '../../src/fingering/search.ts';
import { type Solution, solve } from '../../src/fingering/solver.ts';
import type { Tie } from '../../src/fingering/ties.ts';
import { shareOf } from './share.ts';
import {
  drawn,
  drawnWith,
  everyPath,
  gripOf,
  hardest,
  keyOf,
  least,
  PRICE,
  PRICE_AFTER_DIFFERENCES,
  priceOf,
  sum,
  tangled,
} from './trial/lattices.ts';

/** Small cases: as many as a moment allows, some also under mutation. */
const RUNS = Math.max(100, shareOf(500));

describe('the search', () => {
  test('finds the cheapest path on which the ties hold, proves it, and says what it costs without them', () => {
    fc.assert(
      fc.property(drawn, one => {
        const best = least(everyPath(one), sum);
        const found = search(one.lattice, one.ties, solve);
        if (best === Infinity) {
          expect(found).toBeUndefined();
          return;
        }
        expect(found).toMatchObject({
          cost: best,
          proven: true,
          untied: least(everyPath({ ...one, ties: [] }), sum),
        });
        expect(priceOf(one, found!.path, sum)).toBe(best);
      }),
      { numRuns: RUNS },
    );
  });

  // Balancing and settling greedily find most answers; an objective that it does not know is not balanced.
  test.each([
    ['with', solve],
    ['without', (lattice: Lattice) => solve(lattice)],
  ])('proves by branching what is cheaper than its first answers, %s balancing', (_, objective) => {
    let branched = 0;
    fc.assert(
      fc.property(tangled, one => {
        const all = everyPath(one);
        const best = least(all, sum);
        const first = search(one.lattice, one.ties, objective, 0);
        const found = search(one.lattice, one.ties, objective);
        expect(found?.cost ?? Infinity).toBe(best);
        if (!found) return;
        expect(found.proven).toBe(true);
        expect(sum(all.find(({ path }) => path.join() === found.path.join())!)).toBe(best);
        if (first && first.cost > best) branched++;
      }),
      { numRuns: RUNS, seed: 7 },
    );
    expect(branched).toBeGreaterThan(0);
  });

  test('finds the path whose dearest step is cheapest likewise', () => {
    fc.assert(
      fc.property(drawnWith(PRICE_AFTER_DIFFERENCES), one => {
        const best = least(everyPath(one), hardest);
        const found = search(one.lattice, one.ties, solveHardest);
        if (best === Infinity) {
          expect(found).toBeUndefined();
          return;
        }
        expect(found).toMatchObject({ cost: best, proven: true });
        expect(priceOf(one, found!.path, hardest)).toBe(best);
        const capped = withoutHarderSteps(one.lattice, one.ties)!;
        expect(capped.proven).toBe(true);
        // What is left are the paths of no harder step; of those the ordinary search takes the cheapest.
        const cap = best % DIFFERENCE;
        const easy = everyPath(one).filter(({ steps }) => steps.every(step => step % DIFFERENCE <= cap));
        expect(search(capped.lattice, one.ties, solve)?.cost).toBe(least(easy, sum));
      }),
      { numRuns: RUNS },
    );
  });

  test('cut short keeps the ties, and calls proven only what is the best', () => {
    let unproven = 0;
    fc.assert(
      fc.property(drawn, one => {
        const best = least(everyPath(one), sum);
        const found = search(one.lattice, one.ties, solve, 0);
        if (found === undefined) return;
        expect(priceOf(one, found.path, sum)).toBe(found.cost);
        if (found.proven) expect(found.cost).toBe(best);
        else unproven++;
      }),
      { numRuns: RUNS, seed: 3 },
    );
    expect(unproven).toBeGreaterThan(0);
  });
});

describe('the solver', () => {
  test.each([
    ['sums', solve, sum, PRICE],
    ['dearest steps', solveHardest, hardest, PRICE_AFTER_DIFFERENCES],
  ] as const)('prices every grip by the best path through it: %s', (_name, objective, price, own) => {
    fc.assert(
      fc.property(drawnWith(own), ({ lattice }) => {
        const paths = everyPath({ lattice, ties: [] });
        const { through, offsets, cost, path } = objective(lattice);
        lattice.layers.forEach(({ grips }, k) => {
          grips.forEach((_, j) => {
            const best = least(
              paths.filter(each => each.path[k] === j),
              price,
            );
            expect(through[offsets[k]! + j]).toBe(best);
          });
        });
        expect(cost).toBe(least(paths, price));
        if (cost < Infinity) expect(priceOf({ lattice, ties: [] }, path, price)).toBe(cost);
      }),
      { numRuns: RUNS / 2 },
    );
  });
});

describe('a lattice that is cut', () => {
  test('keeps exactly the grips of paths within the bound', () => {
    fc.assert(
      fc.property(drawn, fc.integer({ min: 0, max: 150 }), ({ lattice }, bound) => {
        const within = everyPath({ lattice, ties: [] }).filter(each => sum(each) <= bound);
        const { lattice: small, original } = cut(lattice, solve(lattice), bound);
        lattice.layers.forEach((_, k) => {
          const used = [...new Set(within.map(({ path }) => path[k]!))].sort((a, b) => a - b);
          expect(Array.from(original[k]!)).toEqual(used);
          expect(small.layers[k]!.grips).toEqual(used.map(j => lattice.layers[k]!.grips[j]));
          expect(small.layers[k]!.touching).toEqual(Int32Array.from(used));
        });
        if (within.length === 0) return;
        const { path, cost } = solve(small);
        expect(
          priceOf(
            { lattice, ties: [] },
            path.map((i, k) => original[k]![i]!),
            sum,
          ),
        ).toBe(cost);
        expect(cost).toBe(least(within, sum));
      }),
      { numRuns: RUNS / 2 },
    );
  });

  test('by a test has only the paths that pass it', () => {
    fc.assert(
      fc.property(drawn, fc.nat(5), fc.nat(2), ({ lattice }, at, key) => {
        const k = at % lattice.layers.length;
        const paths = everyPath({ lattice, ties: [] });
        const passing = paths.filter(({ path }) => keyOf(lattice.layers[k]!.grips[path[k]!]!) === key);
        const { cost } = solve(narrowed(lattice, new Map([[k, grip => keyOf(grip) === key]])));
        expect(cost).toBe(least(passing, sum));
      }),
    );
  });
});

describe('a lattice that is balanced over its ties', () => {
  test('prices paths on which the ties hold as before, and no free path lower than before', () => {
    let raised = 0;
    fc.assert(
      fc.property(drawn, one => {
        const tied = everyPath(one);
        const bound = least(tied, sum);
        const free: Solution = solve(one.lattice);
        fc.pre(bound < Infinity);
        const { lattice, solution } = balance(one.lattice, one.ties, solve, free, bound);
        expect(solution.cost).toBeGreaterThanOrEqual(free.cost);
        expect(solution.cost).toBeLessThanOrEqual(bound);
        expect(solution.cost).toBe(solve(lattice).cost);
        const after = everyPath({ lattice, ties: one.ties });
        expect(after.map(sum)).toEqual(tied.map(sum));
        if (solution.cost > free.cost) raised++;
      }),
      { numRuns: RUNS, seed: 5 },
    );
    expect(raised).toBeGreaterThan(0.05 * RUNS);
  });

  test('needs no search where two strikes simply disagree: what they prefer is shared out', () => {
    // Each of two tied notes would rather have its own place; the third place is second best for both.
    const layer = (id: number, costs: readonly number[]) => ({
      id,
      grips: [0, 1, 2].map(gripOf),
      touches: [0, 1, 2].map(key => gripOf(key).touches),
      touching: Int32Array.from([0, 1, 2]),
      costs: Float64Array.from(costs),
    });
    const lattice: Lattice = {
      layers: [layer(0, [0, 900, 300]), layer(1, [900, 0, 300])],
      moves: [new Float64Array(9)],
    };
    const ties: readonly Tie[] = [{ layers: [0, 1], key: keyOf }];
    const { solution } = balance(lattice, ties, solve, solve(lattice), 600);
    expect(solution.cost).toBeGreaterThan(540);
    expect(search(lattice, ties, solve)).toMatchObject({ cost: 600, proven: true, untied: 0 });
  });
});
