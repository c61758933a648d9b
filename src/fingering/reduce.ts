/** A lattice without the grips that cannot matter. */
import type { Lattice, Layer, MoveTable } from './lattice.ts';
import type { Solution } from './solver.ts';

/** What is left of a lattice. */
export interface Reduced {
  readonly lattice: Lattice;
  /** For each layer, the index that each of its grips has in the whole lattice. */
  readonly original: readonly Int32Array[];
}

/** Keeps the grips through which some fingering costs no more than `bound`. */
export const cut = (lattice: Lattice, { through, offsets }: Solution, bound: number): Reduced => {
  const original = lattice.layers.map(({ costs }, k) =>
    Int32Array.from(costs.keys()).filter(i => through[offsets[k]! + i]! <= bound),
  );
  const layers = lattice.layers.map((layer, k) => cutLayer(layer, original[k]!));
  const moves = lattice.moves.map((table, k) =>
    cutTable(table, original[k]!, original[k + 1]!, lattice.layers[k + 1]!.grips.length),
  );
  return { lattice: { layers, moves }, original };
};

/** A layer with only the grips of these indices. */
export const cutLayer = ({ grips, costs, touching, ...rest }: Layer, kept: Int32Array): Layer => ({
  ...rest,
  grips: Array.from(kept, i => grips[i]!),
  touching: Int32Array.from(kept, i => touching[i]!),
  costs: Float64Array.from(kept, i => costs[i]!),
});

/** A move table with only these rows and columns of a table that is `width` wide. */
export const cutTable = (
  table: MoveTable,
  rows: Int32Array,
  columns: Int32Array,
  width: number,
): MoveTable => {
  const made = new Float64Array(rows.length * columns.length);
  let cell = 0;
  for (const row of rows) for (const column of columns) made[cell++] = table[row * width + column]!;
  return made;
};
