/** A system with everything in its place from left to right, ready to be drawn. */

import type { Head } from '../../score/model/event.ts';
import type { Notation } from '../content/notation.ts';
import type { Column, NoteShape } from '../measure/column.ts';
import type { SheetKind, SheetOptions } from '../options.ts';
import type { Line } from './break.ts';
import type { Measured } from './possible.ts';
import { type Node, positions } from './strip.ts';

export interface PlacedNote {
  readonly shape: NoteShape;
  readonly measure: number;
  /** x of its column. */
  readonly x: number;
}

export interface PlacedColumn {
  readonly column: Column;
  readonly x: number;
  /** x of its rest, if it has one. */
  readonly restX: number;
}

export interface PlacedBar {
  readonly node: Extract<Node, { kind: 'bar' }>;
  readonly x: number;
}

export interface PlacedSystem {
  readonly notation: Notation;
  readonly line: Line;
  readonly options: SheetOptions;
  readonly kind: SheetKind;
  readonly isFirst: boolean;
  /** Where the staff lines end. */
  readonly width: number;
  readonly columns: readonly PlacedColumn[];
  readonly bars: readonly PlacedBar[];
  readonly notes: readonly PlacedNote[];
  readonly byEvent: ReadonlyMap<number, PlacedNote>;
  readonly byHead: ReadonlyMap<number, PlacedNote>;
  /** Right edge of the clef, key and time signature. */
  readonly headRight: number;
}

/** Left edge, right edge and middle of a placed note's undisplaced head. */
export const headLeft = ({ shape, x }: PlacedNote): number => x + shape.dx;
export const headRight = ({ shape, x }: PlacedNote): number => x + shape.dx + shape.headWidth;
export const headCentre = ({ shape, x }: PlacedNote): number => x + shape.dx + shape.headWidth / 2;

/** Where a rest stands: one that fills its measure in the middle between the bar lines, unless a signature changes there. */
function restX(column: Column, nodes: readonly Node[], xs: readonly number[], index: number): number {
  if (!fillsMeasure(column)) return xs[index]!;
  const from = nodes.slice(0, index).findLastIndex(node => node.kind === 'bar');
  const to = nodes.findIndex((node, i) => i > index && node.kind === 'bar');
  const inside = nodes.slice(index, to);
  if (inside.some(node => node.kind === 'column' && node.column.change.length > 0)) return xs[index]!;
  const left = xs[from]! + nodes[from]!.width;
  return (left + xs[to]! - column.rest!.width) / 2;
}

const fillsMeasure = ({ rest }: Column) =>
  rest !== undefined && (rest.event.wholeMeasure || !rest.event.value);

export function placeSystem(
  { notation }: Measured,
  line: Line,
  options: SheetOptions,
  kind: SheetKind,
): PlacedSystem {
  const nodes = line.strip.nodes();
  const xs = positions(nodes, line.strip, line.stretch);
  const columns: PlacedColumn[] = [];
  const bars: PlacedBar[] = [];
  nodes.forEach((node, i) => {
    if (node.kind === 'bar') bars.push({ node, x: xs[i]! });
    else columns.push({ column: node.column, x: xs[i]!, restX: restX(node.column, nodes, xs, i) });
  });
  const notes = columns.flatMap(({ column, x }) =>
    [...column.graces, ...(column.note ? [column.note] : [])].map(shape => ({
      shape,
      measure: column.measure,
      x,
    })),
  );
  return {
    notation,
    line,
    options,
    kind,
    isFirst: line.first === 0,
    width: xs.at(-1)! + nodes.at(-1)!.width,
    columns,
    bars,
    notes,
    byEvent: new Map(notes.map(note => [note.shape.event.id, note])),
    byHead: new Map(notes.flatMap(note => note.shape.event.heads.map(head => [head.id, note] as const))),
    headRight: nodes[0]!.width,
  };
}

/** Whether the tie to a head comes from outside the system, or past the ending that stands between. */
export function isTiedFromAfar({ byHead }: PlacedSystem, { id, tieFrom }: Head): boolean {
  if (tieFrom === undefined) return false;
  const from = byHead.get(tieFrom)?.shape.event.heads.find(each => each.id === tieFrom);
  return from?.tieTo !== id;
}

/**
 * x of a moment in a measure: its column's, or between columns in proportion to time, the measure's right bar line
 * being its end.
 */
export function xAt(system: PlacedSystem, measure: number, at: number): number {
  const columns = system.columns.filter(({ column }) => column.measure === measure);
  const next = columns.find(({ column }) => column.at >= at);
  const before = columns.findLast(({ column }) => column.at < at);
  if (next && (next.column.at === at || !before)) return next.x;
  const end = next?.x ?? measureSpan(system, measure).right;
  if (!before) return end;
  const { column, x } = before;
  return x + ((end - x) * (at - column.at)) / Math.max(column.duration, at - column.at);
}

export interface MeasureSpan {
  /** End of the left bar line's strokes. */
  readonly left: number;
  /** End of the signatures after it. */
  readonly content: number;
  /** Start of the right bar line's strokes. */
  readonly right: number;
}

export function measureSpan({ bars, headRight }: PlacedSystem, measure: number): MeasureSpan {
  const end = bars.findIndex(({ node }) => node.edge !== 'start' && node.measure === measure);
  const before = bars[end - 1]!;
  const left = before.node.edge === 'start' ? headRight : before.x + before.node.bar.strokesWidth;
  const right = bars[end]!.x + (bars[end]!.node.bar.strokes[0]?.x ?? 0);
  return { left, content: before.x + before.node.width, right };
}
