/**
 * Strips that grow to the right, a measure at a time: what stands in one does not depend on what is to come, so
 * all systems that begin with a measure are had by growing one strip.
 */
import type { Column, Row } from '../measure/column.ts';
import { type Clearances, type Solids, stopsAtBar } from './clearances.ts';
import { type Gap, gapLength, lengthAt, type Node, type Strip, stretchFor } from './strip.ts';

/** Before a bar line the last note keeps a little less than its room: the line itself divides. */
const BEFORE_BAR = 0.94;
/** Notes and figures keep this far from bar lines and signatures. */
const BESIDE_BAR = 0.6;
/** Words keep this far from the line at the left of a system. */
const EDGE = 0.5;
/** An accidental may reach over a neighbour at another height to the note before it. */
const LOOK_BACK = 3;

type Bar = Extract<Node, { kind: 'bar' }>;

/** What a column of a strip has in a row. */
interface Standing {
  readonly index: number;
  readonly solids: Solids;
}

export interface GrowingStrip {
  readonly nodes: Node[];
  readonly gaps: Gap[];
  readonly rods: number[];
  /** The last columns of each row, as many as the next one may reach. */
  readonly latest: Map<Row, readonly Standing[]>;
  /** The last bar line. */
  bar: number;
  readonly clearances: Clearances;
}

/** A strip that holds the bar line at its left, and nothing yet. */
export const startStrip = (bar: Bar, clearances: Clearances): GrowingStrip => ({
  nodes: [bar],
  gaps: [],
  rods: [],
  latest: new Map(),
  bar: 0,
  clearances,
});

/** Adds a measure, up to where its right bar line will be, and raises rods so that no two solids of a row come too close. */
export function addMeasure(strip: GrowingStrip, columns: readonly Column[]): void {
  for (const column of columns) addColumn(strip, column);
  const last = strip.nodes[strip.nodes.length - 1]!;
  addGap(
    strip,
    last,
    last.kind === 'bar' ? 0 : strip.clearances.of(last.column).right + BESIDE_BAR,
    BEFORE_BAR,
  );
}

/** Adds the bar line after the measure that was added last, where the strip goes on behind it. */
export function addBar(strip: GrowingStrip, bar: Bar): void {
  strip.bar = strip.nodes.push(bar) - 1;
}

/** The strip as it is with a bar line at its end; the growing one stays as it was. */
export function close(strip: GrowingStrip, end: Bar): Strip {
  const { gaps } = strip;
  const inside = strip.nodes.length;
  const nodes = () => [...strip.nodes.slice(0, inside), end];
  const rods = strip.rods.slice();
  for (const [row, columns] of strip.latest)
    if (!stopsAtBar(row)) holdInside({ ...strip, rods }, columns[columns.length - 1]!, end);
  const solid = strip.nodes.reduce((sum, { width }) => sum + width, 0) + end.width;
  return { nodes, gaps, rods, solid, least: lengthAt({ gaps, rods, solid }, 0) };
}

function addColumn(strip: GrowingStrip, column: Column): void {
  const { nodes, latest, clearances } = strip;
  const index = nodes.length;
  const previous = nodes[index - 1]!;
  addGap(strip, previous, previous.kind === 'bar' ? 0 : headroom(previous.column), 1);
  nodes.push({ kind: 'column', column, width: 0 });
  const { rows, left } = clearances.of(column);
  const room = left + BESIDE_BAR;
  if (index - strip.bar <= LOOK_BACK) spread(strip, strip.bar, index, nodes[strip.bar]!.width + room);
  for (const { row, solids } of rows) {
    const earlier = latest.get(row) ?? [];
    if (earlier.length === 0 && !stopsAtBar(row))
      spread(strip, 0, index, Math.max(0, ...solids.map(solid => EDGE - solid.left)));
    for (const other of earlier) spread(strip, other.index, index, clearances.between(other.solids, solids));
    const standing = { index, solids };
    latest.set(row, earlier.length < LOOK_BACK ? [...earlier, standing] : [...earlier.slice(1), standing]);
  }
}

/** Adds the gap after a node: what a bar line asks for, or a column's room, all of it or a part. */
function addGap({ gaps, rods }: GrowingStrip, left: Node, rod: number, part: number): void {
  rods.push(rod);
  gaps.push(
    left.kind === 'bar'
      ? { fixed: left.bar.after, stretch: 0 }
      : { fixed: 0, stretch: Math.max(left.column.ideal * part, 0) },
  );
}

const headroom = ({ duration, note, rest }: Column): number =>
  duration > 0 ? Math.max(note?.headWidth ?? rest?.width ?? 0, 0) + 0.3 : 0;

/** Keeps the last words of a system left of its end. */
function holdInside(strip: GrowingStrip, { index, solids }: Standing, end: Bar): void {
  const reach = Math.max(...solids.map(solid => solid.right + (solid.endGap ?? 0)));
  spread(strip, index, strip.nodes.length, reach - end.width);
}

/** Raises the rods between two nodes, in proportion to their natural room, until they are `distance` apart. */
function spread({ nodes, gaps, rods }: GrowingStrip, from: number, to: number, distance: number): void {
  let widths = 0;
  let length = 0;
  for (let i = from; i < to; i++) {
    widths += nodes[i]!.width;
    length += nodes[i]!.width + gapLength(rods[i]!, gaps[i]!, 0);
  }
  if (length >= distance) return;
  if (to - from === 1) {
    rods[from] = distance - nodes[from]!.width;
    return;
  }
  const s = stretchFor(gaps, rods, distance - widths, from, to);
  let missing = distance - widths;
  for (let i = from; i < to; i++) {
    rods[i] = gapLength(rods[i]!, gaps[i]!, s);
    missing -= rods[i]!;
  }
  if (missing > 0) rods[to - 1]! += missing;
}
