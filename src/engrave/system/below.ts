/** Words and dynamics below the staff, in as few rows as they can be. */
import type { Direction } from '../../score/model/direction.ts';
import { type Box, union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { BELOW_GAP, dynamicX, marksBelow } from '../measure/dynamic-marks.ts';
import { type PlacedBar, type PlacedSystem, xAt } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** Least distance of a row's ink from the top line, and from ink over it. */
const TOP = 5;
const CLEARANCE = 0.5;
/** A sign that is no longer than this does not cross a bar line. */
const SHORT = 6;
const BESIDE_BAR = 0.4;

/** What stands at the end of a measure belongs to the first note of the next. */
function momentOf({ line, notation }: PlacedSystem, index: number, at: number): readonly [number, number] {
  const ends = at >= notation.tune.measures[index]!.length && index < line.last;
  return ends ? [index + 1, 0] : [index, at];
}

/** Where a direction belongs, and where its marks start: a dynamic has its middle under that of its head or rest. */
function placeOf(system: PlacedSystem, index: number, { kind, at }: Direction, marks: readonly Mark[]) {
  const [measure, moment] = momentOf(system, index, at);
  const x = xAt(system, measure, moment);
  if (kind !== 'dynamic') return { anchor: x, x };
  const here = system.columns.find(({ column }) => column.measure === measure && column.at === moment);
  const centre = here?.column.centre ?? 0;
  return { anchor: x + centre, x: x + dynamicX(marks, centre, moment) };
}

interface Item {
  readonly measure: number;
  /** In place from left to right, baseline at y = 0. */
  readonly marks: readonly Mark[];
  readonly box: Box;
}

/**
 * Bar lines run through both staves: a short sign keeps on its side of one that it would meet, all keep left of that
 * at the end.
 */
function besideBars(
  { bars, width }: PlacedSystem,
  { anchor, x }: { readonly anchor: number; readonly x: number },
  box: Box,
): number {
  const bar = bars.find(
    each => each.x < x + box.right + BESIDE_BAR && strokesEnd(each) > x + box.left - BESIDE_BAR,
  );
  const isShort = box.right - box.left < SHORT;
  if (!bar || bar.node.edge === 'start' || !isShort) return Math.min(x, width - box.right);
  const right = strokesEnd(bar) + BESIDE_BAR - box.left;
  const left = bar.x - BESIDE_BAR - box.right;
  return Math.min(bar.x < anchor ? Math.max(x, right) : left, width - box.right);
}

const strokesEnd = ({ x, node }: PlacedBar): number => x + node.bar.strokesWidth;

function itemsOf(system: PlacedSystem, isWanted: (direction: Direction) => boolean): Item[] {
  const { line, notation } = system;
  const items: Item[] = [];
  for (let index = line.first; index <= line.last; index++)
    for (const direction of notation.tune.measures[index]!.directions.filter(isWanted)) {
      const marks = marksBelow(direction);
      const box = union(marks.map(bounds));
      if (!box) continue;
      const x = besideBars(system, placeOf(system, index, direction, marks), box);
      const placed = move(marks, x, 0);
      items.push({ measure: index, marks: placed, box: union(placed.map(bounds))! });
    }
  return items.sort((a, b) => a.box.left - b.box.left);
}

/** Less by what rounding may take of the room that notes left between them. */
const GAP = BELOW_GAP - 0.01;
const touch = (a: Box, b: Box): boolean => a.left < b.right + GAP && b.left < a.right + GAP;

/** Each in the first row that has room for it, from the left: no fewer rows would hold them. Dynamics come first. */
function inRows(system: PlacedSystem): Item[][] {
  const isDynamic = ({ kind }: Direction) => kind === 'dynamic';
  const rows: Item[][] = [];
  for (const item of [...itemsOf(system, isDynamic), ...itemsOf(system, each => !isDynamic(each))]) {
    const row = rows.find(others => !others.some(({ box }) => touch(box, item.box)));
    if (row) row.push(item);
    else rows.push([item]);
  }
  return rows;
}

export function drawBelow(system: PlacedSystem, sketch: Sketch): void {
  for (const row of inRows(system)) {
    const top = Math.max(
      ...row.map(({ box }) => sketch.below(box.left - 0.3, box.right + 0.3, 4) + CLEARANCE - box.top),
      TOP - Math.min(...row.map(({ box }) => box.top)),
    );
    for (const { measure, marks } of row) sketch.add(measure, move(marks, 0, top));
  }
}
