/**
 * The hardest single move made as easy as can be, and then the sum: two exact searches. The one here
 * finds the smallest cap under which a path exists (minimax, as in Hori & Sagayama 2016); the ordinary
 * one then takes the cheapest among the moves under the cap.
 */
import { DIFFERENCE, type Lattice, type MoveTable } from './lattice.ts';
import { search } from './search.ts';
import { layerOffsets, type Solution } from './solver.ts';
import type { Tie } from './ties.ts';

/** How many branches the search for the hardest step may take: its passes are slower than those for sums. */
const MOST_BRANCHES = 600;

/**
 * The lattice without the steps that are harder than the hardest of the easiest fingering in which the
 * ties hold. A step is a move with the grip it leads to. Undefined where no fingering satisfies the ties.
 */
export const withoutHarderSteps = (lattice: Lattice, ties: readonly Tie[]): Capped | undefined => {
  const hardest = search(lattice, ties, solveHardest, MOST_BRANCHES);
  return hardest && { lattice: capped(lattice, hardest.cost % DIFFERENCE), proven: hardest.proven };
};

/** A lattice without the steps that are harder than need be. */
export interface Capped {
  readonly lattice: Lattice;
  /** False where the search was cut off: an easier hardest step may exist. */
  readonly proven: boolean;
}

/**
 * The path whose dearest step is cheapest, of those with the fewest differences from another edition;
 * `through` is, for the best path by each grip, its dearest step and `DIFFERENCE` for each difference.
 */
export const solveHardest = (lattice: Lattice): Solution => {
  const offsets = layerOffsets(lattice);
  const onward = backward(lattice, offsets);
  const through = forward(lattice, offsets).map((cost, at) => both(cost, onward[at]!));
  return { ...follow(lattice, offsets, through, onward), through, offsets };
};

/** For each grip the dearest step of the best way there, the first grip's own cost included. */
const forward = ({ layers, moves }: Lattice, offsets: Int32Array): Float64Array => {
  const arrive = new Float64Array(offsets[layers.length]!);
  if (layers[0]) arrive.set(layers[0].costs);
  for (let k = 1; k < layers.length; k++) {
    const { costs } = layers[k]!;
    const table = moves[k - 1]!;
    const [before, here] = [offsets[k - 1]!, offsets[k]!];
    for (let j = 0; j < costs.length; j++) {
      const own = costs[j]!;
      let best = Infinity;
      for (let i = before, cell = j; i < here; i++, cell += costs.length) {
        // What is joined is never cheaper than its parts.
        if (arrive[i]! >= best) continue;
        const cost = both(arrive[i]!, table[cell]! + own);
        if (cost < best) best = cost;
      }
      arrive[here + j] = best;
    }
  }
  return arrive;
};

/** For each grip the dearest step of the best way on from it; its own is not among them. */
const backward = ({ layers, moves }: Lattice, offsets: Int32Array): Float64Array => {
  const onward = new Float64Array(offsets[layers.length]!);
  for (let k = layers.length - 2; k >= 0; k--) {
    const { costs } = layers[k + 1]!;
    const table = moves[k]!;
    const [here, next] = [offsets[k]!, offsets[k + 1]!];
    for (let i = 0, cell = 0; i < next - here; i++) {
      let best = Infinity;
      for (let j = 0; j < costs.length; j++, cell++) {
        if (onward[next + j]! >= best) continue;
        const cost = both(onward[next + j]!, table[cell]! + costs[j]!);
        if (cost < best) best = cost;
      }
      onward[here + i] = best;
    }
  }
  return onward;
};

/** Two stretches of a path joined: differences add up, of the steps the dearer counts. */
const both = (a: number, b: number): number => {
  if (a < DIFFERENCE && b < DIFFERENCE) return Math.max(a, b);
  return a + b < Infinity ? a + b - Math.min(a % DIFFERENCE, b % DIFFERENCE) : Infinity;
};

/** From the first layer on, the first grip by which nothing dearer than the optimum comes of it. */
const follow = (
  { layers, moves }: Lattice,
  offsets: Int32Array,
  through: Float64Array,
  onward: Float64Array,
): { readonly path: Int32Array; readonly cost: number } => {
  const path = new Int32Array(layers.length);
  if (layers.length === 0) return { path, cost: 0 };
  const cost = through.subarray(0, offsets[1]!).reduce((least, each) => Math.min(least, each), Infinity);
  if (cost === Infinity) return { path, cost };
  let sofar = 0;
  for (let k = 0; k < layers.length; k++) {
    const { costs } = layers[k]!;
    const until = (j: number): number =>
      k === 0 ? costs[j]! : both(sofar, moves[k - 1]![path[k - 1]! * costs.length + j]! + costs[j]!);
    path[k] = layers[k]!.grips.findIndex((_, j) => both(until(j), onward[offsets[k]! + j]!) <= cost);
    sofar = until(path[k]!);
  }
  return { path, cost };
};

/** The lattice without the steps that cost more than the cap. */
const capped = (lattice: Lattice, cap: number): Lattice => {
  const tables = new Map<MoveTable, MoveTable>();
  const trim = (table: MoveTable, costs: Float64Array): MoveTable => {
    const known = tables.get(table);
    if (known) return known;
    const made = table.map((move, cell) =>
      (move + costs[cell % costs.length]!) % DIFFERENCE > cap ? Infinity : move,
    );
    tables.set(table, made);
    return made;
  };
  const [first, ...rest] = lattice.layers;
  const layers = first
    ? [{ ...first, costs: first.costs.map(cost => (cost % DIFFERENCE > cap ? Infinity : cost)) }, ...rest]
    : [];
  return { layers, moves: lattice.moves.map((table, k) => trim(table, lattice.layers[k + 1]!.costs)) };
};
