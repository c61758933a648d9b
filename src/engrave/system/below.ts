/** Words and dynamics below the staff, in as few rows as they can be. */
import type { Direction } from '../../score/model/direction.ts';
import { type Box, union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { BELOW_GAP, marksBelow } from '../measure/dynamic-marks.ts';
import { type PlacedSystem, xAt } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** Least distance of a row's ink from the top line, and from ink over it. */
const TOP = 5;
const CLEARANCE = 0.5;
/** A sign that is no longer than this does not cross a bar line. */
const SHORT = 6;
const BESIDE_BAR = 0.4;

/** What stands at the end of a measure belongs to the first note of the next. */
function startOf(system: PlacedSystem, index: number, { at }: Direction): number {
  const { line, notation } = system;
  const ends = at >= notation.tune.measures[index]!.length && index < line.last;
  return ends ? xAt(system, index + 1, 0) : xAt(system, index, at);
}

interface Item {
  readonly measure: number;
  /** In place from left to right, baseline at y = 0. */
  readonly marks: readonly Mark[];
  readonly box: Box;
}

/** Bar lines run through both staves: a short sign keeps left of one that it would meet, as all do at the end. */
function besideBars({ bars, width }: PlacedSystem, x: number, box: Box): number {
  const bar = bars.find(
    each => each.x < x + box.right + BESIDE_BAR && each.x + each.node.width > x + box.left,
  );
  const isShort = box.right - box.left < SHORT;
  const free = bar && bar.node.edge !== 'start' && isShort ? bar.x - BESIDE_BAR - box.right : x;
  return Math.min(free, width - box.right);
}

function itemsOf(system: PlacedSystem, isWanted: (direction: Direction) => boolean): Item[] {
  const { line, notation } = system;
  const items: Item[] = [];
  for (let index = line.first; index <= line.last; index++)
    for (const direction of notation.tune.measures[index]!.directions.filter(isWanted)) {
      const marks = marksBelow(direction);
      const box = union(marks.map(bounds));
      if (!box) continue;
      const x = besideBars(system, startOf(system, index, direction), box);
      const placed = move(marks, x, 0);
      items.push({ measure: index, marks: placed, box: union(placed.map(bounds))! });
    }
  return items.sort((a, b) => a.box.left - b.box.left);
}

const touch = (a: Box, b: Box): boolean => a.left < b.right + BELOW_GAP && b.left < a.right + BELOW_GAP;

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
