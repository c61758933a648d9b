/**
 * The lattice that the solver walks: a layer of grips for each strike, and between neighbouring layers
 * the cost of every move.
 *
 * Melodies repeat themselves, so layers are interned by pitch and move tables by (layer, layer,
 * context): a tune of any length needs about as many tables as it has different steps, and the solver
 * only ever adds numbers out of them.
 */
import type { Grip, MoveContext } from './grip.ts';
import type { Hand } from './hand.ts';
import { GRIP_TERMS, MOVE_TERMS } from './terms/index.ts';
import { toCost } from './terms/term.ts';

export interface Layer {
  readonly id: number;
  readonly grips: readonly Grip[];
  /** What each grip costs in itself, thousandths of a point. */
  readonly costs: Float64Array;
}

/** Move costs: from grip i of the first layer to grip j of the second at [i × second.length + j]. */
export type MoveTable = Float64Array;

export interface Lattice {
  readonly layers: readonly Layer[];
  /** moves[k] leads from layer k to layer k + 1. */
  readonly moves: readonly MoveTable[];
}

/** What holding a grip costs, thousandths of a point. */
export const gripCost = (grip: Grip, hand: Hand): number => {
  let cost = 0;
  for (const term of GRIP_TERMS) cost += toCost(term, term.measure(grip, hand));
  return cost;
};

/** What a move costs, thousandths of a point. */
export const moveCost = (from: Grip, to: Grip, hand: Hand, context: MoveContext): number => {
  let cost = 0;
  for (const term of MOVE_TERMS) cost += toCost(term, term.measure(from, to, hand, context));
  return cost;
};

/** Builds layers and move tables for one hand, each different one once. */
export const latticeBuilder = (hand: Hand) => {
  const layers = new Map<string, Layer>();
  const tables = new Map<string, MoveTable>();

  const layer = (key: string, grips: () => readonly Grip[]): Layer => {
    const known = layers.get(key);
    if (known) return known;
    const list = grips();
    const costs = Float64Array.from(list, grip => gripCost(grip, hand));
    const made = { id: layers.size, grips: list, costs };
    layers.set(key, made);
    return made;
  };

  const moves = (from: Layer, to: Layer, context: MoveContext): MoveTable => {
    const key = `${from.id},${to.id},${context.haste},${context.hasteFromOpen},${context.slurred}`;
    const known = tables.get(key);
    if (known) return known;
    const table = new Float64Array(from.grips.length * to.grips.length);
    let cell = 0;
    for (const a of from.grips) for (const b of to.grips) table[cell++] = moveCost(a, b, hand, context);
    tables.set(key, table);
    return table;
  };

  return { layer, moves };
};
