/**
 * A system as a row of nodes (columns and bar lines) with gaps between them that stretch. A gap's
 * length at stretch s is the larger of its rod, what its neighbours need, and `fixed + stretch · s`.
 */
import type { Bar } from '../measure/bars.ts';
import type { Column } from '../measure/column.ts';

export type Node =
  | {
      readonly kind: 'bar';
      readonly bar: Bar;
      readonly width: number;
      readonly measure: number;
      readonly edge: 'start' | 'inner' | 'end';
    }
  | { readonly kind: 'column'; readonly column: Column; readonly width: 0 };

/** The natural room between two nodes. */
export interface Gap {
  readonly fixed: number;
  readonly stretch: number;
}

export interface Strip {
  /** Listed where they are asked for: of most strips that are tried, nothing but the length is. */
  readonly nodes: () => readonly Node[];
  /** One rod a gap, one fewer than nodes: gap i lies between node i (its right edge) and node i + 1. */
  readonly rods: readonly number[];
  /** The gaps that the rods belong to; strips that begin alike share them, so that there may be more. */
  readonly gaps: readonly Gap[];
  /** Room that does not stretch: the widths of the bars. */
  readonly solid: number;
  /** Length of all that does not yield. */
  readonly least: number;
}

/** Length of a gap at a stretch. */
export const gapLength = (rod: number, { fixed, stretch }: Gap, s: number): number =>
  Math.max(rod, fixed + stretch * s);

/** Length of the whole at a stretch; 1 is natural. */
export function lengthAt({ gaps, rods, solid }: Omit<Strip, 'nodes' | 'least'>, s: number): number {
  let length = solid;
  for (let i = 0; i < rods.length; i++) length += gapLength(rods[i]!, gaps[i]!, s);
  return length;
}

/** x of every node at a stretch. */
export function positions(nodes: readonly Node[], { gaps, rods }: Strip, s: number): number[] {
  const xs = [0];
  for (let i = 0; i < rods.length; i++) xs.push(xs[i]! + nodes[i]!.width + gapLength(rods[i]!, gaps[i]!, s));
  return xs;
}

/**
 * The stretch at which the gaps from one up to another add up to a length: the sum is convex and piecewise
 * linear in it, so Newton's steps from above end exactly. Infinity where nothing stretches; 0 where the rods
 * are too long.
 */
export function stretchFor(
  gaps: readonly Gap[],
  rods: readonly number[],
  length: number,
  from = 0,
  to = rods.length,
): number {
  let s = Infinity;
  for (let step = 0; step < 64; step++) {
    let solid = 0;
    let elastic = 0;
    for (let i = from; i < to; i++) {
      const rod = rods[i]!;
      const { fixed, stretch } = gaps[i]!;
      if (stretch > 0 && fixed + stretch * s > rod) {
        solid += fixed;
        elastic += stretch;
      } else solid += Math.max(rod, stretch > 0 ? 0 : fixed);
    }
    if (elastic === 0) return solid <= length ? s : 0;
    const next = (length - solid) / elastic;
    if (next <= 0) return 0;
    if (next >= s) return s;
    s = next;
  }
  return s;
}
