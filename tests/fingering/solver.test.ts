/** What the solver's two passes say of every grip, and the edges of what it is given. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { problemOf, solveProblem } from '../../src/fingering/problem.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { search } from '../../src/fingering/search.ts';
import { solve } from '../../src/fingering/solver.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import type { Tune } from '../../src/score/tune.ts';
import { diceFrom } from '../fuzz/mutate.ts';
import { bars, DIVISION, pitchOf, tuneOf, tuneOfMeasures } from '../support/melody.ts';
import { unlessRefused } from '../support/refused.ts';
import { instruments, tunes } from './cases.ts';
import { shareOf } from './share.ts';
import { drawn as drawnLattice, everyPath, least, sum } from './trial/lattices.ts';

describe('the solver', () => {
  test('costs the same through every grip of the best path, and never less through another', () => {
    const drawn = instruments.chain(instrument =>
      tunes(instrument, 0, 5).map(tune => ({ instrument, tune })),
    );
    fc.assert(
      fc.property(drawn, ({ instrument, tune }) => {
        const problem = unlessRefused(() => problemOf(tune, instrument, rulesFrom()));
        fc.pre(problem !== undefined);
        const { path, cost, through, offsets } = solve(problem!.lattice);
        path.forEach((grip, k) => {
          expect(through[offsets[k]! + grip]).toBe(cost);
        });
        expect(Math.min(...through)).toBe(cost);
      }),
      { numRuns: shareOf(200), seed: 21 },
    );
  });

  test('takes, of equally cheap paths, the grip that stands first, from the last layer back', () => {
    // Costs of nothing and of one, so that most lattices have several best paths.
    const coarse = (costs: Float64Array) =>
      costs.map(cost => (cost === Infinity ? cost : Math.abs(cost) % 2));
    const backwards = ({ path }: { readonly path: readonly number[] }) => path.toReversed().join();
    let shared = 0;
    fc.assert(
      fc.property(drawnLattice, ({ lattice }) => {
        const layers = lattice.layers.map(layer => ({ ...layer, costs: coarse(layer.costs) }));
        const flat = { layers, moves: lattice.moves.map(coarse) };
        const all = everyPath({ lattice: flat, ties: [] });
        const cheapest = all.filter(each => sum(each) === least(all, sum));
        fc.pre(sum(cheapest[0]!) < Infinity);
        if (cheapest.length > 1) shared += 1;
        const [first] = cheapest.map(backwards).sort();
        expect(Array.from(solve(flat).path).toReversed().join()).toBe(first);
      }),
      { numRuns: Math.max(100, shareOf(1000)), seed: 84 },
    );
    expect(shared).toBeGreaterThan(30);
  });

  test('an empty tune costs nothing, and a window off the neck is refused', () => {
    const guitar = findInstrument('guitar');
    expect(arrange(tuneOf([]), guitar, rulesFrom()).arrangement.cost).toBe(0);
    expect(() => arrange(tuneOf([]), guitar, rulesFrom({ windows: wholeTune(8, 4) }))).toThrow(Refusal);
    expect(() => arrange(tuneOf([]), guitar, rulesFrom({ windows: wholeTune(30, 34) }))).toThrow(Refusal);
  });
});

describe('ties that are hard to settle', () => {
  /** Passages that leap about at random, in a random order. */
  const wandering = (seed: number): Tune => {
    const dice = diceFrom(seed);
    const passages = Array.from({ length: 6 }, () =>
      Array.from({ length: 12 }, () => ({
        pitches: [pitchOf(`${'CDEFGAB'[dice(7)]}${3 + dice(3)}`)],
        duration: DIVISION / 4,
      })),
    );
    return tuneOfMeasures(
      Array.from({ length: 8 }, (_, n) => ({ number: `${n + 1}`, events: passages[dice(6)]! })),
    );
  };

  // One place a pitch can always be had where nothing else is asked for; the first greedy try fails on these.
  test.each([34, 46])(
    'are settled before much is tried, and never said to contradict one another: %i',
    seed => {
      const rules = rulesFrom({ onePlace: true });
      const { lattice, ties } = problemOf(wandering(seed), findInstrument('guitar'), rules);
      expect(search(lattice, ties, solve, 1)).toBeUndefined();
      const { path } = search(lattice, ties, solve, 60)!;
      for (const { layers, key } of ties) {
        const keys = layers.map(k => key(lattice.layers[k]!.grips[path[k]!]!));
        expect(new Set(keys).size).toBe(1);
      }
    },
  );
});

test('an answer is proven only where the search for it and that for the easiest steps both are', () => {
  const problem = problemOf(bars('C4 D4 E4'), findInstrument('ukulele'), rulesFrom());
  expect(solveProblem(problem).proven).toBe(true);
  expect(solveProblem({ ...problem, easiestProven: false }).proven).toBe(false);
});
