/** What joins figures of the tablature: slurs as in the notation, and lines where a finger slides. */

import type { Box } from '../drawing/box.ts';
import type { End } from '../drawing/curve.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { clearingBow } from './curves.ts';
import type { PlacedSystem } from './placed.ts';

type Figures = readonly { readonly head: number | undefined; readonly box: Box }[];

/** Slurs again, over their figures and those between. */
function slurMarks({ byEvent, notation }: PlacedSystem, boxes: Figures): Mark[] {
  const top = (box: Box) => ({ x: (box.left + box.right) / 2, y: box.top });
  const figure = (event: number) => {
    const head = byEvent.get(event)?.shape.event.heads.at(-1)?.id;
    return boxes.find(each => each.head === head)?.box;
  };
  return notation.tune.slurs.flatMap(({ from, to }) => {
    const start = figure(from);
    const stop = figure(to);
    if (!start || !stop) return [];
    const lift = 0.2;
    const [first, last] = [top(start), top(stop)].map(({ x, y }) => ({ x, y: y - lift })) as [End, End];
    if (last.x - first.x < 1) return [];
    const between = boxes.map(({ box }) => top(box)).filter(({ x }) => x > first.x + 0.3 && x < last.x - 0.3);
    return [clearingBow('tab-curve', first, last, -1, between, from)];
  });
}

/** A line between two figures on one string that the same finger stops, one straight after the other. */
function slideMarks({ columns, notation }: PlacedSystem, boxes: Figures): Mark[] {
  const marks: Mark[] = [];
  let before: number | undefined;
  for (const { column } of columns) {
    const heads = column.note?.event.heads ?? [];
    const here = heads.length === 1 ? heads[0]!.id : undefined;
    if (before !== undefined && here !== undefined)
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
