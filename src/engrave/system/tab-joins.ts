/**
 * What joins figures of the tablature: slurs as in the notation, and lines where a finger slides. A line
 * is drawn only under a slur: without one the finger that stays on its string guides the hand in silence,
 * and a line would ask for a slide that is heard.
 */

import type { NoteEvent } from '../../score/model/event.ts';
import type { Slur } from '../../score/model.ts';
import type { Box } from '../drawing/box.ts';
import type { CurveMark, End } from '../drawing/curve.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import { arriving, clearingBow, leaving, passesThrough, ridge } from './bows.ts';
import { headCentre, type PlacedSystem } from './placed.ts';

/** Between a figure and its slur. */
const LIFT = 0.2;
/** How far an outer slur starts from an inner one on the same figure. */
const NESTED = 0.4;

/** From left to right. */
type Figures = readonly { readonly head: number | undefined; readonly box: Box }[];

/** Middle of a figure's upper edge. */
const top = ({ left, right, top: y }: Box): End => ({ x: (left + right) / 2, y });

/** Half of a figure's height. */
const HALF = 0.7;

/** The uppermost figure of an event; where a tied note shows none, the place where it would stand. */
function figureOf({ byEvent, notation }: PlacedSystem, figures: Figures, event: number): Box | undefined {
  const note = byEvent.get(event);
  const heads = note?.shape.event.heads.map(({ id }) => id) ?? [];
  const own = figures.filter(({ head }) => head !== undefined && heads.includes(head)).map(({ box }) => box);
  const strings = heads.flatMap(head => notation.arrangement.placements.get(head)?.string ?? []);
  if (!note || own.length > 0 || strings.length === 0) return own.sort((a, b) => a.top - b.top)[0];
  const [x, y] = [headCentre(note), (Math.min(...strings) - 1) * STYLE.tabSpace];
  return { left: x, right: x, top: y - HALF, bottom: y + HALF };
}

/** Slurs again, over their figures and those between; to and from the edges of the system where one is broken. */
function slurMarks(system: PlacedSystem, figures: Figures): Mark[] {
  const inner = [...system.notation.tune.slurs].sort((a, b) => a.to - a.from - (b.to - b.from));
  const drawn: { from: number; to: number; mark: CurveMark }[] = [];
  for (const slur of inner) {
    const { from, to } = slur;
    const [start, stop] = [from, to].map(event => figureOf(system, figures, event));
    if (!start && !stop && !passesThrough(system, slur)) continue;
    const under = drawn.filter(each => each.from >= from && each.to <= to);
    const shared = (end: 'from' | 'to', id: number) => (under.some(each => each[end] === id) ? NESTED : 0);
    const over = (box: Box, nested: number): End => ({ ...top(box), y: box.top - LIFT - nested });
    const begins = start && over(start, shared('from', from));
    const ends = stop && over(stop, shared('to', to));
    const first = begins ?? arriving(system.headRight, ends?.x ?? system.width, brokenY(figures[0], ends));
    const last = ends ?? leaving(system, brokenY(figures.at(-1), begins));
    if (last.x - first.x < 1) continue;
    const obstacles = [
      ...corners(figures, first.x, last.x, start, stop),
      ...under.flatMap(({ mark }) => ridge(mark)),
    ];
    const mark = clearingBow({ role: 'tab-curve', from: first, to: last, side: -1, obstacles, of: from });
    drawn.push({ from, to, mark });
  }
  return drawn.map(({ mark }) => mark);
}

/** Where a broken slur meets the system's edge: over the figure that is next to it, or over the top line. */
const brokenY = (next: Figures[number] | undefined, other: End | undefined): number =>
  Math.min((next?.box.top ?? -HALF) - LIFT, other?.y ?? -HALF - LIFT);

/** A corner nearer to an end of the curve is taken to lie so far from it. */
const NEAREST = 0.5;

/** Upper corners of the figures that a curve goes over, drawn in between its ends. */
function corners(
  figures: Figures,
  from: number,
  to: number,
  start: Box | undefined,
  stop: Box | undefined,
): End[] {
  const margin = Math.min((to - from) * 0.03, NEAREST);
  const inside = (x: number) => Math.min(Math.max(x, from + margin), to - margin);
  const between = figures.map(({ box }) => box).filter(box => box.right > from && box.left < to);
  return between.flatMap(box => {
    if (box === start) return [{ x: box.right, y: box.top + LIFT }];
    if (box === stop) return [{ x: box.left, y: box.top + LIFT }];
    return [
      { x: inside(box.left), y: box.top },
      { x: inside(box.right), y: box.top },
    ];
  });
}

/** A line between two slurred figures on one string that the same finger stops, one straight after the other. */
function slideMarks({ columns, notation }: PlacedSystem, boxes: Figures): Mark[] {
  const marks: Mark[] = [];
  let before: NoteEvent | undefined;
  for (const { column } of columns) {
    const here = column.note?.event.heads.length === 1 ? column.note.event : undefined;
    if (before && here && column.graces.length === 0 && isSlurred(notation.tune.slurs, before, here))
      marks.push(...slide(notation.arrangement.placements, boxes, before.heads[0]!.id, here.heads[0]!.id));
    if (column.note || column.rest) before = here;
  }
  return marks;
}

const isSlurred = (slurs: readonly Slur[], { id: a }: NoteEvent, { id: b }: NoteEvent): boolean =>
  slurs.some(({ from, to }) => from <= a && to >= b);

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

export function tabJoins(system: PlacedSystem, digits: readonly Mark[]): Mark[] {
  const boxes = digits
    .map(mark => ({ head: mark.of, box: bounds(mark) }))
    .sort((a, b) => a.box.left - b.box.left);
  return [...slurMarks(system, boxes), ...slideMarks(system, boxes)];
}
