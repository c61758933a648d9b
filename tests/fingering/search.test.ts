/** Search, balance and cut on lattices of plain numbers, against every path there is. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { balance } from '../../src/fingering/balance.ts';
import type { Grip } from '../../src/fingering/grip.ts';
import { DIFFERENCE, type Lattice, narrowed } from '../../src/fingering/lattice.ts';
import { solveHardest, withoutHarderSteps } from '../../src/fingering/least.ts';
import { cut } from '../../src/fingering/reduce.ts';
import { search } from '../../src/fingering/search.ts';
import { type Solution, solve } from '../../src/fingering/solver.ts';
import type { Tie } from '../../src/fingering/ties.ts';
import { shareOf } from './share.ts';

/** Small cases: as many as a moment allows, some also under mutation. */
const RUNS = Math.max(100, shareOf(500));

/** A grip that is nothing but a number for ties to agree on. */
const gripOf = (key: number): Grip => ({
  touches: [{ string: key + 1, fret: 1, finger: 1 }],
  position: 1,
  fit: 'inside',
  astray: 0,
});
const keyOf = (grip: Grip): number => grip.touches[0]!.string - 1;

interface Drawn {
  readonly lattice: Lattice;
  readonly ties: readonly Tie[];
}

/** Up to six layers of up to four grips; a few ties over several layers; some moves are ruled out. */
const drawnWith = (differences: boolean): fc.Arbitrary<Drawn> => {
  const price = fc.oneof({ weight: 12, arbitrary: fc.integer({ min: 0, max: 30 }) }, fc.constant(Infinity));
  const own = differences
    ? fc.tuple(fc.nat(30), fc.nat(2)).map(([cost, count]) => cost + count * DIFFERENCE)
    : fc.integer({ min: -5, max: 30 });
  return fc
    .record({
      layers: fc.array(fc.array(fc.tuple(fc.nat(2), own), { minLength: 1, maxLength: 4 }), {
        minLength: 1,
        maxLength: 6,
      }),
      prices: fc.array(price, { minLength: 80, maxLength: 80 }),
      ties: fc.array(fc.uniqueArray(fc.nat(5), { minLength: 2, maxLength: 4 }), { maxLength: 3 }),
    })
    .map(({ layers, prices, ties }) => ({
      lattice: {
        layers: layers.map((grips, id) => ({
          id,
          grips: grips.map(([key]) => gripOf(key)),
          touches: grips.map(([key]) => gripOf(key).touches),
          touching: Int32Array.from(grips.keys()),
          costs: Float64Array.from(grips, ([, cost]) => cost),
        })),
        moves: layers
          .slice(1)
          .map((to, k) =>
            Float64Array.from({ length: layers[k]!.length * to.length }, (_, cell) => prices[16 * k + cell]!),
          ),
      },
      ties: ties
        .map(each => each.filter(layer => layer < layers.length).sort((a, b) => a - b))
        .filter(each => each.length > 1)
        .map(each => ({ layers: each, key: keyOf })),
    }));
};
const drawn = drawnWith(false);

interface Walked {
  readonly path: readonly number[];
  /** Cost of each step: a move with the grip it leads to. */
  readonly steps: readonly number[];
}

/** Every path on which the ties hold. */
const everyPath = ({ lattice: { layers, moves }, ties }: Drawn): readonly Walked[] => {
  let paths: readonly Walked[] = [{ path: [], steps: [] }];
  layers.forEach(({ costs }, k) => {
    paths = paths.flatMap(({ path, steps }) =>
      Array.from(costs, (cost, j) => {
        const move = k === 0 ? 0 : moves[k - 1]![path[k - 1]! * costs.length + j]!;
        return { path: [...path, j], steps: [...steps, move + cost] };
      }),
    );
  });
  return paths.filter(({ path }) =>
    ties.every(tie => new Set(tie.layers.map(k => keyOf(layers[k]!.grips[path[k]!]!))).size === 1),
  );
};

const sum = ({ steps }: Walked): number => steps.reduce((total, step) => total + step, 0);
/** Differences first, then the dearest step. */
const hardest = ({ steps }: Walked): number =>
  steps.includes(Infinity)
    ? Infinity
    : steps.reduce((total, step) => total + Math.floor(step / DIFFERENCE) * DIFFERENCE, 0) +
      Math.max(...steps.map(step => step % DIFFERENCE));
const least = (all: readonly Walked[], price: (each: Walked) => number): number =>
  all.reduce((best, each) => Math.min(best, price(each)), Infinity);

const priceOf = (of: Drawn, path: Int32Array, price: (each: Walked) => number): number =>
  price(everyPath(of).find(each => each.path.join() === Array.from(path).join())!);

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

  test('finds the path whose dearest step is cheapest likewise', () => {
    fc.assert(
      fc.property(drawnWith(true), one => {
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
    ['sums', solve, sum, false],
    ['dearest steps', solveHardest, hardest, true],
  ] as const)('prices every grip by the best path through it: %s', (_name, objective, price, differences) => {
    fc.assert(
      fc.property(drawnWith(differences), ({ lattice }) => {
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
