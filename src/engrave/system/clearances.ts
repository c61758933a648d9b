/** What columns keep clear of each other, each worked out once: a column stands in many systems that are tried. */
import type { Column, Row, Solid } from '../measure/column.ts';

const CLEAR = 0.1;

export type Solids = readonly Solid[];

/** What a column has, as a system is put together. */
export interface Clearance {
  /** Its solids by row. */
  readonly rows: readonly { readonly row: Row; readonly solids: Solids }[];
  /** How far what stops at bar lines reaches to either side. */
  readonly left: number;
  readonly right: number;
}

export class Clearances {
  readonly #columns = new Map<Column, Clearance>();
  readonly #distances = new Map<Solids, Map<Solids, number>>();

  of(column: Column): Clearance {
    const known = this.#columns.get(column);
    if (known) return known;
    const made = clearanceOf(column);
    this.#columns.set(column, made);
    return made;
  }

  /** Least distance between the origins of two groups of solids in one row. */
  between(before: Solids, after: Solids): number {
    let distances = this.#distances.get(before);
    if (!distances) {
      distances = new Map();
      this.#distances.set(before, distances);
    }
    let distance = distances.get(after);
    if (distance === undefined) {
      distance = distanceBetween(before, after);
      distances.set(after, distance);
    }
    return distance;
  }
}

/** Notes and figures stop at bar lines; words and chord symbols pass over them. */
export const stopsAtBar = (row: Row): boolean => row === 'staff' || row === 'tab';

function clearanceOf({ solids }: Column): Clearance {
  const rows = new Map<Row, Solid[]>();
  for (const solid of solids) {
    const row = rows.get(solid.row);
    if (row) row.push(solid);
    else rows.set(solid.row, [solid]);
  }
  const stopping = solids.filter(({ row }) => stopsAtBar(row));
  return {
    rows: [...rows].map(([row, ofRow]) => ({ row, solids: ofRow })),
    left: Math.max(0, ...stopping.map(({ left }) => -left)),
    right: Math.max(0, ...stopping.map(({ right }) => right)),
  };
}

function distanceBetween(before: Solids, after: Solids): number {
  let distance = 0;
  for (const a of before) {
    for (const b of after) if (overlap(a, b)) distance = Math.max(distance, a.right - b.left + a.gap);
  }
  return distance;
}

const overlap = (a: Solid, b: Solid): boolean => a.top < b.bottom + CLEAR && b.top < a.bottom + CLEAR;
