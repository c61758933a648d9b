/**
 * A system as a row of nodes (columns and bar lines) with gaps between them that stretch. A gap's
 * length at stretch s is the larger of its rod, what its neighbours need, and `fixed + stretch · s`.
 */
import type { Bar } from '../measure/bars.ts';
import type { Column, Row, Solid } from '../measure/column.ts';

export type Node =
  | {
      readonly kind: 'bar';
      readonly bar: Bar;
      readonly width: number;
      readonly measure: number;
      readonly edge: 'start' | 'inner' | 'end';
    }
  | { readonly kind: 'column'; readonly column: Column; readonly width: 0 };

export interface Gap {
  rod: number;
  readonly fixed: number;
  readonly stretch: number;
}

export interface Strip {
  readonly nodes: readonly Node[];
  /** One fewer than nodes: gap i lies between node i (its right edge) and node i + 1. */
  readonly gaps: readonly Gap[];
  /** Room that does not stretch: the widths of the bars. */
  readonly solid: number;
  /** Length of all that does not yield. */
  readonly least: number;
}

/** Before a bar line the last note keeps a little less than its room: the line itself divides. */
const BEFORE_BAR = 0.94;
const CLEAR = 0.1;
/** Notes and figures keep this far from bar lines and signatures. */
const BESIDE_BAR = 0.6;
/** Words keep this far from the line at the left of a system. */
const EDGE = 0.5;

const overlap = (a: Solid, b: Solid) => a.top < b.bottom + CLEAR && b.top < a.bottom + CLEAR;

/** Least distance between the origins of two groups of solids in one row. */
export function solidDistance(before: readonly Solid[], after: readonly Solid[]): number {
  let distance = 0;
  for (const a of before) {
    for (const b of after) if (overlap(a, b)) distance = Math.max(distance, a.right - b.left + a.gap);
  }
  return distance;
}

const distances = new WeakMap<readonly Solid[], WeakMap<readonly Solid[], number>>();

/** The same, remembered: the same neighbours meet in every system that holds both. */
function distanceOf(before: readonly Solid[], after: readonly Solid[]): number {
  const known = distances.get(before) ?? new WeakMap<readonly Solid[], number>();
  distances.set(before, known);
  const distance = known.get(after) ?? solidDistance(before, after);
  known.set(after, distance);
  return distance;
}

function rowsOf(column: Column): Map<Row, Solid[]> {
  const rows = new Map<Row, Solid[]>();
  for (const solid of column.solids) {
    const row = rows.get(solid.row);
    if (row) row.push(solid);
    else rows.set(solid.row, [solid]);
  }
  return rows;
}

const rowCache = new WeakMap<Column, Map<Row, Solid[]>>();
function rows(column: Column): Map<Row, Solid[]> {
  const found = rowCache.get(column) ?? rowsOf(column);
  rowCache.set(column, found);
  return found;
}

const extent = (column: Column, side: 'left' | 'right', only: (row: Row) => boolean): number => {
  let edge = 0;
  for (const solid of column.solids)
    if (only(solid.row)) edge = Math.max(edge, side === 'left' ? -solid.left : solid.right);
  return edge;
};

/** Notes and figures stop at bar lines; words and chord symbols pass over them. */
const stopsAtBar = (row: Row) => row === 'staff' || row === 'tab';

function gapBetween(left: Node, right: Node): Gap {
  if (left.kind === 'bar') {
    return { rod: 0, fixed: left.bar.after, stretch: 0 };
  }
  const { column } = left;
  if (right.kind === 'bar') {
    const rod = extent(column, 'right', stopsAtBar) + BESIDE_BAR;
    return { rod, fixed: 0, stretch: Math.max(column.ideal * BEFORE_BAR, 0) };
  }
  const headroom = Math.max(column.note?.headWidth ?? column.rest?.width ?? 0, 0);
  return { rod: column.duration > 0 ? headroom + 0.3 : 0, fixed: 0, stretch: column.ideal };
}

/** Length of a gap at a stretch. */
export const gapLength = ({ rod, fixed, stretch }: Gap, s: number): number =>
  Math.max(rod, fixed + stretch * s);

/** Raises the rods between two nodes, in proportion to their natural room, until they are `distance` apart. */
function spread(
  nodes: readonly Node[],
  gaps: readonly Gap[],
  from: number,
  to: number,
  distance: number,
): void {
  let length = 0;
  for (let i = from; i < to; i++) length += nodes[i]!.width + gapLength(gaps[i]!, 0);
  if (length >= distance) return;
  if (to - from === 1) {
    gaps[from]!.rod = distance - nodes[from]!.width;
    return;
  }
  const between = gaps.slice(from, to);
  const widths = nodes.slice(from, to).reduce((sum, node) => sum + node.width, 0);
  const s = stretchFor(between, distance - widths);
  let missing = distance - widths;
  for (const gap of between) {
    gap.rod = gapLength(gap, s);
    missing -= gap.rod;
  }
  if (missing > 0) between.at(-1)!.rod += missing;
}

/**
 * The stretch at which gaps add up to a length: the sum is convex and piecewise linear in it, so
 * Newton's steps from above end exactly. Infinity where nothing stretches; 0 where the rods are too long.
 */
export function stretchFor(gaps: readonly Gap[], length: number): number {
  let s = Infinity;
  for (let step = 0; step < 64; step++) {
    let solid = 0;
    let elastic = 0;
    for (const { rod, fixed, stretch } of gaps) {
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

/** An accidental may reach over a neighbour at another height to the note before it. */
const LOOK_BACK = 3;

/** A strip that grows to the right: what stands in it already does not depend on what is to come. */
export interface GrowingStrip {
  readonly nodes: Node[];
  readonly gaps: Gap[];
  /** The last columns of each row, as many as the next one may reach. */
  readonly latest: Map<Row, readonly number[]>;
  /** The last bar line. */
  bar: number;
}

export const startStrip = (bar: Node): GrowingStrip => ({
  nodes: [bar],
  gaps: [],
  latest: new Map(),
  bar: 0,
});

/** Adds a node, and raises rods so that no two solids of a row come too close, over as many gaps as lie between. */
export function extend(strip: GrowingStrip, node: Node): void {
  const { nodes, gaps, latest, bar } = strip;
  const index = nodes.length;
  gaps.push(gapBetween(nodes[index - 1]!, node));
  nodes.push(node);
  if (node.kind === 'bar') {
    strip.bar = index;
    return;
  }
  const room = extent(node.column, 'left', stopsAtBar) + BESIDE_BAR;
  if (index - bar <= LOOK_BACK) spread(nodes, gaps, bar, index, nodes[bar]!.width + room);
  for (const [row, solids] of rows(node.column)) {
    const earlier = latest.get(row) ?? [];
    if (earlier.length === 0 && !stopsAtBar(row))
      spread(nodes, gaps, 0, index, Math.max(0, ...solids.map(solid => EDGE - solid.left)));
    for (const other of earlier) {
      const { column } = nodes[other] as Extract<Node, { kind: 'column' }>;
      spread(nodes, gaps, other, index, distanceOf(rows(column).get(row)!, solids));
    }
    latest.set(row, [...earlier, index].slice(-LOOK_BACK));
  }
}

/** The strip as it is with a bar line at its end; the growing one stays as it was. */
export function close(strip: GrowingStrip, end: Node): Strip {
  const nodes = [...strip.nodes, end];
  const gaps = strip.gaps.map(gap => ({ ...gap }));
  gaps.push(gapBetween(strip.nodes.at(-1)!, end));
  for (const [row, columns] of strip.latest)
    if (!stopsAtBar(row)) holdInside(nodes, gaps, row, columns.at(-1)!);
  const solid = nodes.reduce((sum, node) => sum + node.width, 0);
  return { nodes, gaps, solid, least: lengthOf(gaps, solid, 0) };
}

/** Keeps the last words of a system left of its end. */
function holdInside(nodes: readonly Node[], gaps: readonly Gap[], row: Row, index: number): void {
  const node = nodes[index]!;
  if (node.kind !== 'column') return;
  const solids = rows(node.column).get(row)!;
  const reach = Math.max(...solids.map(solid => solid.right + (solid.endGap ?? 0)));
  const end = nodes.length - 1;
  spread(nodes, gaps, index, end, reach - nodes[end]!.width);
}

const lengthOf = (gaps: readonly Gap[], solid: number, s: number): number =>
  gaps.reduce((sum, gap) => sum + gapLength(gap, s), solid);

/** Length of the whole at a stretch; 1 is natural. */
export const lengthAt = ({ gaps, solid }: Strip, s: number): number => lengthOf(gaps, solid, s);

/** x of every node at a stretch. */
export function positions({ nodes, gaps }: Strip, s: number): number[] {
  const xs = [0];
  for (let i = 0; i < gaps.length; i++) xs.push(xs[i]! + nodes[i]!.width + gapLength(gaps[i]!, s));
  return xs;
}
