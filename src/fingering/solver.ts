/**
 * The exact solver: the cheapest path through the layers of a lattice.
 *
 * One pass forward finds, for each grip of each layer, the cheapest way to arrive at it; one pass
 * backward the cheapest way on from it. Their sum is the price of the best whole fingering that uses
 * the grip: least on the best path, and above it by the grip's exact regret elsewhere. Costs are
 * integers, so both passes agree to the last digit. The work is the sum over neighbouring layers of
 * (grips × grips): linear in the number of notes.
 */
import type { Lattice } from './lattice.ts';

/** The cheapest path through a lattice, and the price of every grip. */
export interface Solution {
  /** Index of the chosen grip in each layer. */
  readonly path: Int32Array;
  /** Cost of the path, thousandths of a point. */
  readonly cost: number;
  /** For grip i of layer k, at offsets[k] + i: the cost of the best fingering through it. */
  readonly through: Float64Array;
  readonly offsets: Int32Array;
}

/**
 * Solves a lattice; every layer must hold at least one grip. Of equally cheap paths it takes, from the
 * last note back to the first, the grip that stands first in its layer.
 */
export const solve = (lattice: Lattice): Solution => {
  const offsets = layerOffsets(lattice);
  const arrive = forward(lattice, offsets);
  const through = addBackward(lattice, offsets, arrive);
  const path = trace(lattice, offsets, arrive);
  const last = lattice.layers.length - 1;
  return { path, cost: last < 0 ? 0 : arrive[offsets[last]! + path[last]!]!, through, offsets };
};

/** Where the grips of each layer begin when those of all are numbered through; the last entry is their count. */
export const layerOffsets = ({ layers }: Lattice): Int32Array => {
  const offsets = new Int32Array(layers.length + 1);
  for (let k = 0; k < layers.length; k++) offsets[k + 1] = offsets[k]! + layers[k]!.grips.length;
  return offsets;
};

/** The cheapest cost of reaching each grip, its own cost included. */
const forward = ({ layers, moves }: Lattice, offsets: Int32Array): Float64Array => {
  const arrive = new Float64Array(offsets[layers.length]!);
  if (layers.length > 0) arrive.set(layers[0]!.costs);
  for (let k = 1; k < layers.length; k++) {
    const { costs } = layers[k]!;
    const table = moves[k - 1]!;
    const before = offsets[k - 1]!;
    const here = offsets[k]!;
    const width = costs.length;
    for (let j = 0; j < width; j++) {
      let best = Infinity;
      for (let i = before, cell = j; i < here; i++, cell += width) {
        const cost = arrive[i]! + table[cell]!;
        if (cost < best) best = cost;
      }
      arrive[here + j] = best + costs[j]!;
    }
  }
  return arrive;
};

/** Adds to each grip's cost of arrival the cheapest way on from it. */
const addBackward = ({ layers, moves }: Lattice, offsets: Int32Array, arrive: Float64Array): Float64Array => {
  const through = arrive.slice();
  // ahead[j]: what grip j of the next layer costs, with the cheapest way on from it.
  const widest = layers.reduce((most, { costs }) => Math.max(most, costs.length), 0);
  let ahead = new Float64Array(widest);
  let next = new Float64Array(widest);
  if (layers.length > 0) ahead.set(layers[layers.length - 1]!.costs);
  for (let k = layers.length - 2; k >= 0; k--) {
    const table = moves[k]!;
    const { costs } = layers[k]!;
    const width = layers[k + 1]!.costs.length;
    const here = offsets[k]!;
    for (let i = 0, cell = 0; i < costs.length; i++) {
      let best = Infinity;
      for (let j = 0; j < width; j++, cell++) {
        const cost = table[cell]! + ahead[j]!;
        if (cost < best) best = cost;
      }
      through[here + i]! += best;
      next[i] = best + costs[i]!;
    }
    [ahead, next] = [next, ahead];
  }
  return through;
};

/** Walks back along the cheapest arrivals; ties go to the grip that stands first. */
const trace = ({ layers, moves }: Lattice, offsets: Int32Array, arrive: Float64Array): Int32Array => {
  const path = new Int32Array(layers.length);
  const last = layers.length - 1;
  if (last < 0) return path;
  let best = Infinity;
  for (let j = 0; j < layers[last]!.grips.length; j++) {
    const cost = arrive[offsets[last]! + j]!;
    if (cost < best) {
      best = cost;
      path[last] = j;
    }
  }
  for (let k = last; k > 0; k--) {
    const width = layers[k]!.grips.length;
    const table = moves[k - 1]!;
    let least = Infinity;
    for (let i = 0; i < layers[k - 1]!.grips.length; i++) {
      const cost = arrive[offsets[k - 1]! + i]! + table[i * width + path[k]!]!;
      if (cost < least) {
        least = cost;
        path[k - 1] = i;
      }
    }
  }
  return path;
};
