/**
 * The cheapest fingering in which ties hold, found exactly.
 *
 * Without its ties a tune is a shortest-path problem, and the solver's answer a lower bound for the tied
 * one. If that answer breaks ties, they are settled one after the other on what looks best: that gives
 * some answer, and its cost an upper bound. Every grip that no fingering below that bound can use is
 * thrown away (the solver knows each grip's price from its two passes); few are left. On what is left
 * branch and bound proves the best: where an answer breaks a tie the problem is split, one branch for
 * each thing the tied strikes might agree on.
 */
import { balance } from './balance.ts';
import type { Grip } from './grip.ts';
import { type Lattice, narrowed } from './lattice.ts';
import { cut } from './reduce.ts';
import { type Solution, solve } from './solver.ts';
import type { Tie, TieKey } from './ties.ts';

/** Solves a lattice without ties for some objective: the sum of all costs, or another. */
export type Objective = (lattice: Lattice) => Solution;

/** The cheapest path that was found. */
export interface Found {
  /** Index of the chosen grip in each layer, and the objective's value. */
  readonly path: Int32Array;
  readonly cost: number;
  /** False where the search was cut off: the ties hold, but a cheaper fingering may exist. */
  readonly proven: boolean;
  /** The objective's value without the ties. */
  readonly untied: number;
}

/** Ties that are settled, with the key that their strikes agree on. */
type Settled = ReadonlyMap<number, TieKey>;

interface Branch {
  readonly settled: Settled;
  readonly bound: number;
  readonly order: number;
}

/**
 * How many branches may be solved before the search settles for the best it has, and how many prices of
 * moves all of them together may look at: so many that no tune of a few pages comes near.
 */
const MOST_BRANCHES = 3000;
const MOST_PRICES = 50_000_000;

/** Undefined where no fingering satisfies the ties, or none could be found. */
export const search = (
  lattice: Lattice,
  ties: readonly Tie[],
  objective: Objective,
  mostBranches = MOST_BRANCHES,
): Found | undefined => {
  const free = objective(lattice);
  if (!Number.isFinite(free.cost)) return undefined;
  const untied = free.cost;
  if (brokenTies(lattice, ties, free, new Map()).length === 0) {
    return { path: free.path, cost: free.cost, proven: true, untied };
  }
  const dived = dive(lattice, ties, objective, free);
  if (dived && dived.cost === untied) return { path: dived.path, cost: untied, proven: true, untied };
  const bound = dived?.cost ?? Infinity;
  const { lattice: small, original } = cut(lattice, free, bound);
  const { best, proven } = prove(small, ties, objective, bound, mostBranches);
  if (best) return { path: best.path.map((i, k) => original[k]![i]!), cost: best.cost, proven, untied };
  return dived && { path: dived.path, cost: bound, proven, untied };
};

interface Proof {
  /** The best fingering that is cheaper than the bound, if there is one. */
  readonly best: Pick<Solution, 'path' | 'cost'> | undefined;
  readonly proven: boolean;
}

/** Where costs are summed, they are balanced over the ties first: that leaves little to branch on. */
const prove = (
  lattice: Lattice,
  ties: readonly Tie[],
  objective: Objective,
  bound: number,
  mostBranches: number,
): Proof => {
  if (objective !== solve || bound === Infinity) {
    return branchAndBound(lattice, ties, objective, bound, mostBranches);
  }
  const balanced = balance(lattice, ties, solve, solve(lattice), bound);
  if (balanced.solution.cost >= bound) return { best: undefined, proven: true };
  const dived = dive(balanced.lattice, ties, solve, balanced.solution);
  const better = dived && dived.cost < bound ? dived : undefined;
  const limit = better?.cost ?? bound;
  const { lattice: small, original } = cut(balanced.lattice, balanced.solution, limit);
  const { best, proven } = branchAndBound(small, ties, solve, limit, mostBranches);
  if (!best) return { best: better, proven };
  return { best: { path: best.path.map((i, k) => original[k]![i]!), cost: best.cost }, proven };
};

/** The best fingering that is cheaper than `bound`, if there is one. */
const branchAndBound = (
  lattice: Lattice,
  ties: readonly Tie[],
  objective: Objective,
  bound: number,
  mostBranches: number,
): { readonly best: Solution | undefined; readonly proven: boolean } => {
  const prices = lattice.moves.reduce((sum, table) => sum + table.length, 1);
  const most = Math.min(mostBranches, Math.ceil(MOST_PRICES / prices));
  let best: Solution | undefined;
  let limit = bound;
  let order = 0;
  const queue: Branch[] = [{ settled: new Map(), bound: -Infinity, order: order++ }];
  for (let solved = 0; queue.length > 0; solved++) {
    if (solved === most) return { best, proven: false };
    const { settled } = limit === Infinity ? takeDeepest(queue) : takeLeast(queue);
    const here = settle(lattice, ties, settled);
    const solution = objective(here);
    if (!(solution.cost < limit)) continue;
    const [broken] = brokenTies(lattice, ties, solution, settled);
    if (broken === undefined) {
      best = solution;
      limit = solution.cost;
      queue.splice(0, queue.length, ...queue.filter(each => each.bound < limit));
      continue;
    }
    for (const [key, keyBound] of keyBounds(here, ties[broken]!, solution)) {
      if (keyBound < limit)
        queue.push({ settled: new Map(settled).set(broken, key), bound: keyBound, order: order++ });
    }
  }
  return { best, proven: true };
};

/** Removes and answers the branch with the least bound, of equal ones the newest: it has most ties settled. */
const takeLeast = (queue: Branch[]): Branch => {
  let least = 0;
  for (let i = 1; i < queue.length; i++) {
    const [a, b] = [queue[i]!, queue[least]!];
    if (a.bound < b.bound || (a.bound === b.bound && a.order > b.order)) least = i;
  }
  return queue.splice(least, 1)[0]!;
};

/** Removes and answers the branch with most ties settled, of equal ones that with the least bound: until there is an answer, any will do. */
const takeDeepest = (queue: Branch[]): Branch => {
  let deepest = 0;
  for (let i = 1; i < queue.length; i++) {
    const [a, b] = [queue[i]!, queue[deepest]!];
    const deeper = a.settled.size - b.settled.size;
    if (deeper > 0 || (deeper === 0 && a.bound < b.bound)) deepest = i;
  }
  return queue.splice(deepest, 1)[0]!;
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

/** The ties that a solution breaks and that are not settled yet, ascending. */
const brokenTies = (
  { layers }: Lattice,
  ties: readonly Tie[],
  { path }: Solution,
  settled: Settled,
): readonly number[] => {
  const broken: number[] = [];
  ties.forEach((tie, t) => {
    if (settled.has(t)) return;
    const keyAt = (k: number): TieKey => tie.key(layers[k]!.grips[path[k]!]!);
    const first = keyAt(tie.layers[0]!);
    if (tie.layers.some(k => keyAt(k) !== first)) broken.push(t);
  });
  return broken;
};

/**
 * What the strikes of a tie might agree on, and what that costs at least: for each strike the cheapest
 * fingering through such a grip, of all strikes the dearest.
 */
const keyBounds = (
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
    bounds = bounds ? meet(bounds, here) : here;
  }
  return bounds ?? new Map();
};

/** The keys of both maps, each with the dearer bound. */
const meet = (a: ReadonlyMap<TieKey, number>, b: ReadonlyMap<TieKey, number>): Map<TieKey, number> => {
  const both = new Map<TieKey, number>();
  for (const [key, bound] of a) {
    const other = b.get(key);
    if (other !== undefined) both.set(key, Math.max(bound, other));
  }
  return both;
};

/** While very many ties are broken, every so-manieth is settled at once. */
const AT_ONCE = 8;

/** Settles broken ties on what is most promising for them, until none is left: an answer, perhaps not the best. */
const dive = (
  lattice: Lattice,
  ties: readonly Tie[],
  objective: Objective,
  free: Solution,
): Solution | undefined => {
  let solution = free;
  let settled: Settled = new Map();
  for (;;) {
    const broken = brokenTies(lattice, ties, solution, settled);
    if (broken.length === 0) return solution;
    const here = settle(lattice, ties, settled);
    const options = (t: number): readonly TieKey[] =>
      [...keyBounds(here, ties[t]!, solution)].sort(([, a], [, b]) => a - b).map(([key]) => key);
    const several = new Map(settled);
    for (const t of broken.filter((_, n) => n % AT_ONCE === 0)) {
      const [key] = options(t);
      if (key === undefined) return undefined;
      several.set(t, key);
    }
    let tried = several;
    let answer = objective(settle(lattice, ties, tried));
    for (const key of options(broken[0]!)) {
      if (Number.isFinite(answer.cost)) break;
      tried = new Map(settled).set(broken[0]!, key);
      answer = objective(settle(lattice, ties, tried));
    }
    if (!Number.isFinite(answer.cost)) return undefined;
    settled = tried;
    solution = answer;
  }
};
