/**
 * The lattice that the solver walks: a layer of grips for each strike, and between neighbouring layers
 * the cost of every move.
 *
 * Melodies repeat themselves, so layers are interned by what is demanded of a strike, and move tables by
 * (layer, layer, context): a tune of any length needs about as many tables as it has different steps,
 * and the solver only ever adds numbers out of them.
 */
import { type Demand, demandKey } from './demand.ts';
import { type Grip, type MoveContext, moveOf } from './grip.ts';
import type { Hand } from './hand.ts';
import { type CostModel, gripCost, moveCost } from './model.ts';

export interface Layer {
  readonly id: number;
  readonly grips: readonly Grip[];
  /** What each grip costs in itself, thousandths of a point; Infinity where it is ruled out. */
  readonly costs: Float64Array;
}

/** Move costs: from grip i of the first layer to grip j of the second at [i × second.length + j]. */
export type MoveTable = Float64Array;

export interface Lattice {
  readonly layers: readonly Layer[];
  /** moves[k] leads from layer k to layer k + 1. */
  readonly moves: readonly MoveTable[];
}

/**
 * What it costs, in thousandths of a point, to play a note elsewhere than the edition that is to be
 * matched: more than any whole fingering, so that differences are counted first, and exactly.
 */
export const DIFFERENCE = 1e10;

/** Builds layers and move tables for one hand and cost model, each different one once. */
export const latticeBuilder = (hand: Hand, model: CostModel) => {
  const layers = new Map<string, Layer>();
  const tables = new Map<string, MoveTable>();

  const layer = (demand: Demand, gripsFor: (demand: Demand) => readonly Grip[]): Layer => {
    const key = demandKey(demand);
    const known = layers.get(key);
    if (known) return known;
    const grips = gripsFor(demand);
    const costs = Float64Array.from(
      grips,
      grip => gripCost(model, grip, hand) + DIFFERENCE * differences(grip, demand),
    );
    const made = { id: layers.size, grips, costs };
    layers.set(key, made);
    return made;
  };

  const moves = (from: Layer, to: Layer, context: MoveContext): MoveTable => {
    const key = `${from.id},${to.id},${context.haste},${context.hasteFromOpen},${context.slurred}`;
    const known = tables.get(key);
    if (known) return known;
    const table = new Float64Array(from.grips.length * to.grips.length);
    let cell = 0;
    for (const a of from.grips)
      for (const b of to.grips) table[cell++] = moveCost(model, moveOf(a, b, context), hand);
    tables.set(key, table);
    return table;
  };

  return { layer, moves };
};

const differences = (grip: Grip, { targets }: Demand): number => {
  let count = 0;
  grip.touches.forEach(({ string, fret }, index) => {
    const target = targets[index];
    if (target && (target.string !== string || target.fret !== fret)) count++;
  });
  return count;
};

/** The same lattice with some layers narrowed: grips that `allowed` denies are ruled out. */
export const narrowed = (
  lattice: Lattice,
  allowed: ReadonlyMap<number, (grip: Grip) => boolean>,
): Lattice => {
  if (allowed.size === 0) return lattice;
  const layers = [...lattice.layers];
  for (const [k, test] of allowed) {
    const layer = layers[k]!;
    const costs = layer.costs.map((cost, i) => (test(layer.grips[i]!) ? cost : Infinity));
    layers[k] = { ...layer, costs };
  }
  return { ...lattice, layers };
};
