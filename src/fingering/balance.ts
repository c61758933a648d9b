/**
 * A lattice whose untied optimum comes as near to the tied one as can be.
 *
 * Where tied strikes disagree, what one of them prefers is made dearer for it and cheaper for the others, by
 * amounts that sum to zero over the tie: a fingering in which the ties hold costs what it did, one that
 * breaks them more. (Lagrangian relaxation of the ties with subgradient steps after Polyak 1969, from memory;
 * as in dual decomposition.) All amounts are integers, so nothing is lost.
 */
import type { Grip } from './grip.ts';
import type { Lattice, Layer } from './lattice.ts';
import type { Solution } from './solver.ts';
import type { Tie, TieKey } from './ties.ts';

const ROUNDS = 80;

/** After so many rounds without progress the steps are halved. */
const PATIENCE = 5;

/** A balanced lattice and its cheapest path, ties left out. */
export interface Balanced {
  readonly lattice: Lattice;
  readonly solution: Solution;
}

/** Balances a lattice, of whose tied fingerings one costs `bound`; `free` is its solution as it stands. */
export const balance = (
  lattice: Lattice,
  ties: readonly Tie[],
  solve: (lattice: Lattice) => Solution,
  free: Solution,
  bound: number,
): Balanced => {
  const keys = tieKeys(lattice, ties);
  let best: Balanced = { lattice, solution: free };
  let here = best;
  let scale = 1;
  let stale = 0;
  for (let round = 0; round < ROUNDS && best.solution.cost < bound; round++) {
    const pulls = ties.flatMap((tie, t) => pullsOf(tie, keys[t]!, here.solution.path));
    const strength = pulls.reduce((sum, { pull }) => sum + pull * pull, 0);
    if (strength === 0) break;
    const step = (scale * (bound - here.solution.cost)) / strength;
    const moved = shifted(here.lattice, pulls, step);
    here = { lattice: moved, solution: solve(moved) };
    if (here.solution.cost > best.solution.cost) {
      best = here;
      stale = 0;
    } else if (++stale === PATIENCE) {
      scale /= 2;
      stale = 0;
      here = best;
    }
  }
  return best;
};

/** For each tie and each of its layers the number of each grip's key. */
type Keys = readonly (readonly Int32Array[])[];

const tieKeys = ({ layers }: Lattice, ties: readonly Tie[]): Keys =>
  ties.map(tie => {
    const numbers = new Map<TieKey, number>();
    const known = new Map<readonly Grip[], Int32Array>();
    return tie.layers.map(k => {
      const { grips } = layers[k]!;
      const made =
        known.get(grips) ??
        Int32Array.from(grips, grip => {
          const key = tie.key(grip);
          const number = numbers.get(key) ?? numbers.size;
          numbers.set(key, number);
          return number;
        });
      known.set(grips, made);
      return made;
    });
  });

/** How strongly the grips of one key in a layer are to be made dearer. */
interface Pull {
  readonly layer: number;
  readonly keys: Int32Array;
  readonly key: number;
  readonly pull: number;
}

/** For each strike of a broken tie: dearer what it chose, as far as the others did not. */
const pullsOf = (tie: Tie, keys: readonly Int32Array[], path: Int32Array): readonly Pull[] => {
  const chosen = tie.layers.map((k, n) => keys[n]![path[k]!]!);
  const counts = new Map<number, number>();
  for (const key of chosen) counts.set(key, (counts.get(key) ?? 0) + 1);
  if (counts.size === 1) return [];
  return tie.layers.flatMap((layer, n) =>
    [...counts].map(([key, count]) => ({
      layer,
      keys: keys[n]!,
      key,
      pull: (chosen[n] === key ? chosen.length : 0) - count,
    })),
  );
};

const shifted = (lattice: Lattice, pulls: readonly Pull[], step: number): Lattice => {
  // A whole number for each unit of pull keeps the sum over a tie at exactly zero.
  const unit = Math.max(1, Math.round(step));
  const layers: Layer[] = [...lattice.layers];
  const own = new Set<number>();
  for (const { layer, keys, key, pull } of pulls) {
    if (!own.has(layer)) layers[layer] = { ...layers[layer]!, costs: layers[layer]!.costs.slice() };
    own.add(layer);
    const { costs } = layers[layer]!;
    for (let i = 0; i < costs.length; i++) if (keys[i] === key) costs[i]! += unit * pull;
  }
  return { ...lattice, layers };
};
