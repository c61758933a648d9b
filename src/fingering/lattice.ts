/**
 * The lattice that the solver walks: a layer of grips for each strike, and between neighbouring layers
 * the cost of every move.
 *
 * Melodies repeat themselves, so layers are interned by what is demanded of a strike, and move tables by
 * (layer, layer, context): a tune of any length needs about as many tables as it has different steps,
 * and the solver only ever adds numbers out of them.
 */
import type { Demand } from './demand.ts';
import { type Grip, type MoveContext, shiftOf, type Touch } from './grip.ts';
import type { Hand } from './hand.ts';
import { type CostModel, fingerCost, gripCost, handCost } from './model.ts';
import { hasteFor } from './terms/term.ts';

/** The grips that satisfy what is demanded of a strike. */
export interface Layer {
  readonly id: number;
  readonly grips: readonly Grip[];
  /** The different touches of the grips, and for each grip which of them it has, whatever its position. */
  readonly touches: readonly (readonly Touch[])[];
  readonly touching: Int32Array;
  /** What each grip costs in itself, thousandths of a point; Infinity where it is ruled out. */
  readonly costs: Float64Array;
}

/** Move costs: from grip i of the first layer to grip j of the second at [i × second.length + j]. */
export type MoveTable = Float64Array;

/** A layer of grips for each strike, and the prices of all moves between neighbouring layers. */
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

/** A sum of costs, or what one is dearer than another, as points and as differences from that edition. */
export interface PartedCost {
  readonly points: number;
  readonly differences: number;
}

/** Parts a finite sum of costs: what is not whole differences is points. */
export const partedCost = (cost: number): PartedCost => {
  const differences = Math.round(cost / DIFFERENCE) + 0;
  return { points: (cost - differences * DIFFERENCE) / 1000, differences };
};

/** Builds layers and move tables for one hand and cost model, each different one once. */
export class LatticeBuilder {
  readonly #hand: Hand;
  readonly #model: CostModel;
  readonly #layers = new Map<Demand, Layer>();
  readonly #moves = new Map<string, MoveTable>();
  readonly #fingerTables = new Map<string, MoveTable>();
  readonly #handTables = new Map<number, MoveTable>();

  constructor(hand: Hand, model: CostModel) {
    this.#hand = hand;
    this.#model = model;
  }

  /** The layer of what is demanded of a strike; `gripsFor` lists what satisfies it. */
  layer(demand: Demand, gripsFor: (demand: Demand) => readonly Grip[]): Layer {
    const known = this.#layers.get(demand);
    if (known) return known;
    const grips = gripsFor(demand);
    const costs = Float64Array.from(
      grips,
      grip => gripCost(this.#model, grip, this.#hand) + DIFFERENCE * differences(grip, demand),
    );
    const made = { id: this.#layers.size, grips, costs, ...distinctTouches(grips) };
    this.#layers.set(demand, made);
    return made;
  }

  /** The moves from one layer to another in a context. */
  moves(from: Layer, to: Layer, context: MoveContext): MoveTable {
    const { haste, hasteFromOpen, rested, slurred } = context;
    const key = `${from.id},${to.id},${haste},${hasteFromOpen},${rested},${slurred}`;
    const known = this.#moves.get(key);
    if (known) return known;
    const table = rested
      ? new Float64Array(from.grips.length * to.grips.length)
      : this.#fingerTable(from, to, slurred).slice();
    const frets = this.#hand.fretAt.length;
    let cell = 0;
    for (const a of from.grips) {
      const shifts = this.#handTable(hasteFor(a, context));
      const row = a.position * frets;
      for (let j = 0; j < to.grips.length; j++) table[cell++]! += shifts[row + to.grips[j]!.position]!;
    }
    this.#moves.set(key, table);
    return table;
  }

  /**
   * What a move costs the fingers does not depend on time, nor on more of the positions than whether the
   * hand shifts and which way: it is priced once for each pair of touches and direction.
   */
  #fingerTable(from: Layer, to: Layer, slurred: boolean): MoveTable {
    const key = `${from.id},${to.id},${slurred}`;
    const known = this.#fingerTables.get(key);
    if (known) return known;
    const prices = ([-1, 0, 1] as const).map(shift =>
      from.touches.map(a =>
        to.touches.map(b => {
          const melodic = a.length === 1 && b.length === 1;
          return fingerCost(this.#model, a, b, { shift, melodic, slurred }, this.#hand);
        }),
      ),
    );
    const table = new Float64Array(from.grips.length * to.grips.length);
    let cell = 0;
    for (const [i, { position }] of from.grips.entries()) {
      const rows = prices.map(byTouches => byTouches[from.touching[i]!]!);
      for (let j = 0; j < to.grips.length; j++) {
        const shift = shiftOf(position, to.grips[j]!.position);
        table[cell++] = rows[shift + 1]![to.touching[j]!]!;
      }
    }
    this.#fingerTables.set(key, table);
    return table;
  }

  /** What a shift costs the hand depends on positions and haste alone; from position i to j at [i × frets + j]. */
  #handTable(haste: number): MoveTable {
    const known = this.#handTables.get(haste);
    if (known) return known;
    const frets = this.#hand.fretAt.length;
    const table = Float64Array.from({ length: frets * frets }, (_, cell) =>
      handCost(this.#model, Math.floor(cell / frets), cell % frets, haste, this.#hand),
    );
    this.#handTables.set(haste, table);
    return table;
  }
}

const distinctTouches = (grips: readonly Grip[]): Pick<Layer, 'touches' | 'touching'> => {
  const indices = new Map<string, number>();
  const touches: (readonly Touch[])[] = [];
  const touching = Int32Array.from(grips, grip => {
    const key = grip.touches.map(({ string, fret, finger }) => `${string},${fret},${finger}`).join();
    const known = indices.get(key);
    if (known !== undefined) return known;
    indices.set(key, touches.length);
    return touches.push(grip.touches) - 1;
  });
  return { touches, touching };
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
