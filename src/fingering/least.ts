/**
 * The hardest single move made as easy as can be, and then the sum: two exact searches. The first finds
 * the smallest cap under which a path exists (minimax, as in Hori & Sagayama 2016); the second is the
 * ordinary one among the moves under the cap.
 */
import type { Lattice, MoveTable } from './lattice.ts';
import { type Found, search } from './search.ts';
import { type Solution, solve } from './solver.ts';
import type { Tie } from './ties.ts';

/** Like `search`, for the lexicographic order (hardest step, sum). A step is a move with the grip it leads to. */
export const searchLeast = (lattice: Lattice, ties: readonly Tie[]): Found | undefined => {
  const hardest = search(lattice, ties, solveHardest);
  return hardest && search(capped(lattice, hardest.solution.cost), ties, solve);
};

/** The path whose dearest step is cheapest. */
export const solveHardest = (lattice: Lattice): Solution => {
  const { layers, moves } = lattice;
  const offsets = new Int32Array(layers.length + 1);
  layers.forEach(({ grips }, k) => {
    offsets[k + 1] = offsets[k]! + grips.length;
  });
  const worst = new Float64Array(offsets[layers.length]!);
  const from = new Int32Array(offsets[layers.length]!);
  layers[0]?.costs.forEach((cost, j) => {
    worst[j] = cost;
  });
  for (let k = 1; k < layers.length; k++) {
    const { costs } = layers[k]!;
    for (let j = 0; j < costs.length; j++) {
      let best = Infinity;
      for (let i = 0; i < layers[k - 1]!.grips.length; i++) {
        const step = moves[k - 1]![i * costs.length + j]! + costs[j]!;
        const peak = Math.max(worst[offsets[k - 1]! + i]!, step);
        if (peak < best) {
          best = peak;
          from[offsets[k]! + j] = i;
        }
      }
      worst[offsets[k]! + j] = best;
    }
  }
  return traced(offsets, worst, from, layers.length);
};

const traced = (offsets: Int32Array, worst: Float64Array, from: Int32Array, count: number): Solution => {
  const path = new Int32Array(count);
  let cost = count > 0 ? Infinity : 0;
  for (let at = offsets[count - 1] ?? 0; at < worst.length; at++) {
    if (worst[at]! < cost) {
      cost = worst[at]!;
      path[count - 1] = at - offsets[count - 1]!;
    }
  }
  for (let k = count - 1; k > 0; k--) path[k - 1] = from[offsets[k]! + path[k]!]!;
  // Every grip is bounded by the whole: a coarse bound, but a true one.
  return { path, cost, through: new Float64Array(worst.length).fill(cost), offsets };
};

/** The lattice without the steps that cost more than the cap. */
const capped = (lattice: Lattice, cap: number): Lattice => {
  const tables = new Map<MoveTable, MoveTable>();
  const cut = (table: MoveTable, costs: Float64Array): MoveTable => {
    const known = tables.get(table);
    if (known) return known;
    const made = table.map((move, cell) => (move + costs[cell % costs.length]! > cap ? Infinity : move));
    tables.set(table, made);
    return made;
  };
  const first = lattice.layers[0];
  const layers = first
    ? [
        { ...first, costs: first.costs.map(cost => (cost > cap ? Infinity : cost)) },
        ...lattice.layers.slice(1),
      ]
    : [];
  return { layers, moves: lattice.moves.map((table, k) => cut(table, lattice.layers[k + 1]!.costs)) };
};
