/** What joins figures of the tablature: slurs as in the notation, and lines where a finger slides. */

import type { Box } from '../drawing/box.ts';
import type { End } from '../drawing/curve.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { clearingBow, clears } from './curves.ts';
import type { PlacedSystem } from './placed.ts';

/** Between a figure and its slur. */
const LIFT = 0.2;

type Figures = readonly { readonly head: number | undefined; readonly box: Box }[];

/** Middle of a figure's upper edge. */
const top = ({ left, right, top: y }: Box): End => ({ x: (left + right) / 2, y });

/** Slurs again, over their figures and those between. */
function slurMarks({ byEvent, notation }: PlacedSystem, figures: Figures): Mark[] {
  /** The uppermost figure of an event. */
  const figure = (event: number) => {
    const heads = byEvent.get(event)?.shape.event.heads.map(({ id }) => id) ?? [];
    const boxes = figures
      .filter(({ head }) => head !== undefined && heads.includes(head))
      .map(({ box }) => box);
    return boxes.sort((a, b) => a.top - b.top)[0];
  };
  return notation.tune.slurs.flatMap(({ from, to }) => {
    const [start, stop] = [figure(from), figure(to)];
    if (!start || !stop) return [];
    const [first, last] = [start, stop].map(box => ({ ...top(box), y: box.top - LIFT })) as [End, End];
    if (last.x - first.x < 1) return [];
    const between = figures
      .map(({ box }) => box)
      .filter(box => box !== start && box !== stop && box.right > first.x && box.left < last.x);
    const margin = (last.x - first.x) * 0.03;
    const inside = (x: number) => Math.min(Math.max(x, first.x + margin), last.x - margin);
    const corners = between.flatMap(box => [
      { x: inside(box.left), y: box.top },
      { x: inside(box.right), y: box.top },
    ]);
    corners.push({ x: start.right, y: start.top + 0.2 }, { x: stop.left, y: stop.top + 0.2 });
    const curve = clearingBow('tab-curve', first, last, -1, corners, from);
    if (clears(curve, -1, corners)) return [curve];
    // Too steep to go round what stands between: level, over all of it.
    const level = Math.min(first.y, last.y, ...corners.map(({ y }) => y - LIFT));
    return [clearingBow('tab-curve', { ...first, y: level }, { ...last, y: level }, -1, corners, from)];
  });
}

/** A line between two figures on one string that the same finger stops, one straight after the other. */
function slideMarks({ columns, notation }: PlacedSystem, boxes: Figures): Mark[] {
  const marks: Mark[] = [];
  let before: number | undefined;
  for (const { column } of columns) {
    const heads = column.note?.event.heads ?? [];
    const here = heads.length === 1 ? heads[0]!.id : undefined;
    if (before !== undefined && here !== undefined && column.graces.length === 0)
      marks.push(...slide(notation.arrangement.placements, boxes, before, here));
    if (column.note || column.rest) before = here;
  }
  return marks;
}

type Placements = PlacedSystem['notation']['arrangement']['placements'];

function slide(placements: Placements, boxes: Figures, from: number, to: number): Mark[] {
  const [a, b] = [placements.get(from), placements.get(to)];
  const [start, stop] = [from, to].map(head => boxes.find(each => each.head === head)?.box);
  if (!a || !b || !start || !stop) return [];
  if (a.string !== b.string || a.finger !== b.finger || a.finger === 0 || a.fret === b.fret) return [];
  const [x1, x2] = [start.right + 0.3, stop.left - 0.3];
  if (x2 - x1 < 0.6) return [];
  const middle = (start.top + start.bottom) / 2;
  const rise = b.fret > a.fret ? 0.4 : -0.4;
  return [{ kind: 'line', role: 'tab-curve', x1, y1: middle + rise, x2, y2: middle - rise, thickness: 0.14 }];
}

/** Slides are drawn where fingers are shown. */
export function tabJoins(system: PlacedSystem, digits: readonly Mark[]): Mark[] {
  const boxes = digits.map(mark => ({ head: mark.of, box: bounds(mark) }));
  const slides = (system.options.fingers ?? 'none') === 'none' ? [] : slideMarks(system, boxes);
  return [...slurMarks(system, boxes), ...slides];
}
