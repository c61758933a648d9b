/**
 * The cheapest fingering in which ties hold, found exactly.
 *
 * Branch and bound. Without its ties a tune is a shortest-path problem, and the solver's answer a lower
 * bound for the tied one. Where that answer breaks a tie, the problem is split: one branch for each
 * thing the tied strikes might agree on, bounded at once by the price of the dearest single strike that
 * has to give way (the solver knows it from its two passes). The most promising branch is solved next;
 * the first answer that breaks no tie is the optimum.
 */
import type { Grip } from './grip.ts';
import { type Lattice, narrowed } from './lattice.ts';
import type { Solution } from './solver.ts';
import type { Tie, TieKey } from './ties.ts';

/** Solves a lattice without ties for some objective. */
export type Objective = (lattice: Lattice) => Solution;

export interface Found {
  readonly solution: Solution;
  /** False where the search was cut off: the ties hold, but a cheaper fingering may exist. */
  readonly proven: boolean;
  /** The cheapest price without the ties. */
  readonly untied: number;
}

/** Ties that are settled, with the key that their strikes agree on. */
type Settled = ReadonlyMap<number, TieKey>;

interface Branch {
  readonly settled: Settled;
  readonly bound: number;
  readonly order: number;
  /** Where it has been solved already, and was put back for a more promising one. */
  readonly solution?: Solution;
}

/** How many branches may be solved before the search settles for the best it can build. */
const MOST_BRANCHES = 2000;

/** Undefined where no fingering satisfies the ties. */
export const search = (lattice: Lattice, ties: readonly Tie[], objective: Objective): Found | undefined => {
  const free = objective(lattice);
  if (!(free.cost < Infinity) && lattice.layers.length > 0) return undefined;
  const queue: Branch[] = [{ settled: new Map(), bound: free.cost, order: 0 }];
  let order = 1;
  for (let solved = 0; queue.length > 0 && solved < MOST_BRANCHES; solved++) {
    const branch = takeLeast(queue);
    const here = settle(lattice, ties, branch.settled);
    const solution = branch.solution ?? (branch.settled.size === 0 ? free : objective(here));
    if (!(solution.cost < Infinity) && lattice.layers.length > 0) continue;
    const next = queue.reduce((least, each) => Math.min(least, each.bound), Infinity);
    if (solution.cost > next) {
      queue.push({ ...branch, bound: solution.cost, solution });
      continue;
    }
    const broken = ties.findIndex((tie, t) => !branch.settled.has(t) && isBroken(lattice, tie, solution));
    if (broken < 0) return { solution, proven: true, untied: free.cost };
    for (const [key, bound] of branchBounds(here, ties[broken]!, solution)) {
      queue.push({ settled: new Map(branch.settled).set(broken, key), bound, order: order++ });
    }
  }
  const solution = dive(lattice, ties, objective, free);
  return solution && { solution, proven: false, untied: free.cost };
};

/** Removes and answers the branch with the least bound, of equal ones the oldest. */
const takeLeast = (queue: Branch[]): Branch => {
  let least = 0;
  for (let i = 1; i < queue.length; i++) {
    const [a, b] = [queue[i]!, queue[least]!];
    if (a.bound < b.bound || (a.bound === b.bound && a.order < b.order)) least = i;
  }
  return queue.splice(least, 1)[0]!;
};

const settle = (lattice: Lattice, ties: readonly Tie[], settled: Settled): Lattice => {
  const allowed = new Map<number, (grip: Grip) => boolean>();
  for (const [t, key] of settled) {
    for (const layer of ties[t]!.layers) {
      const before = allowed.get(layer);
      allowed.set(layer, grip => ties[t]!.key(grip) === key && (before?.(grip) ?? true));
    }
  }
  return narrowed(lattice, allowed);
};

const keyAt = ({ layers }: Lattice, tie: Tie, k: number, { path }: Solution): TieKey =>
  tie.key(layers[k]!.grips[path[k]!]!);

const isBroken = (lattice: Lattice, tie: Tie, solution: Solution): boolean => {
  const first = keyAt(lattice, tie, tie.layers[0]!, solution);
  return tie.layers.some(k => keyAt(lattice, tie, k, solution) !== first);
};

/**
 * What the strikes of a tie might agree on, and what that costs at least: for each strike the cheapest
 * fingering through such a grip, of all strikes the dearest.
 */
const branchBounds = (
  lattice: Lattice,
  tie: Tie,
  { through, offsets }: Solution,
): ReadonlyMap<TieKey, number> => {
  let bounds: Map<TieKey, number> | undefined;
  for (const k of tie.layers) {
    const here = new Map<TieKey, number>();
    lattice.layers[k]!.grips.forEach((grip, i) => {
      const cost = through[offsets[k]! + i]!;
      const key = tie.key(grip);
      if (cost < (here.get(key) ?? Infinity)) here.set(key, cost);
    });
    if (bounds) {
      for (const [key, bound] of bounds) {
        const cost = here.get(key);
        if (cost === undefined) bounds.delete(key);
        else bounds.set(key, Math.max(bound, cost));
      }
    } else bounds = here;
  }
  return bounds ?? new Map();
};

/** Settles one broken tie after the other on its most promising key: an answer, perhaps not the best. */
const dive = (
  lattice: Lattice,
  ties: readonly Tie[],
  objective: Objective,
  free: Solution,
): Solution | undefined => {
  let solution = free;
  let settled: Settled = new Map();
  for (;;) {
    const broken = ties.findIndex((tie, t) => !settled.has(t) && isBroken(lattice, tie, solution));
    if (broken < 0) return solution;
    const here = settle(lattice, ties, settled);
    const bounds = [...branchBounds(here, ties[broken]!, solution)].sort(([, a], [, b]) => a - b);
    let next: Solution | undefined;
    for (const [key] of bounds) {
      const tried = new Map(settled).set(broken, key);
      const answer = objective(settle(lattice, ties, tried));
      if (answer.cost < Infinity) {
        next = answer;
        settled = tried;
        break;
      }
    }
    if (!next) return undefined;
    solution = next;
  }
};
