/** Ties and slurs: tapered curves on the side of the heads, away from the stems. */
import type { Head, Slur } from '../../score/model.ts';
import { bow, type CurveMark, type End, pointAt } from '../drawing/curve.ts';
import type { Mark } from '../drawing/mark.ts';
import { beamY, type PlacedBeam } from './beams.ts';
import { headCentre, headLeft, type PlacedNote, type PlacedSystem } from './placed.ts';
import { type Sketch, SYSTEM } from './sketch.ts';

/** −1 (above) or 1 (below): away from the stem; in a chord outwards from its middle. */
function tieSide({ shape }: PlacedNote, index: number): -1 | 1 {
  const count = shape.heights.length;
  if (count > 1) return index >= count / 2 ? -1 : 1;
  return shape.stem ? (shape.stem === 'up' ? 1 : -1) : shape.heights[0]! >= 2 ? 1 : -1;
}

const tieHeight = (length: number) => Math.min(1.05, 0.3 + length * 0.09);

function tieMark(from: End, to: End, side: -1 | 1, of: number): Mark {
  return bow('tie', from, to, side, tieHeight(to.x - from.x), of);
}

function tieEnds(note: PlacedNote, index: number, side: -1 | 1): { start: End; stop: End } {
  const y = note.shape.heights[index]! + side * 0.62;
  const left = headLeft(note);
  const width = note.shape.headWidth;
  return { start: { x: left + width * 0.72, y }, stop: { x: left + width * 0.28, y } };
}

/** The staff's edges as ends of a curve that goes on in the next system, or comes from the last. */
const leaving = (system: PlacedSystem, y: number): End => {
  const end = system.bars.at(-1)!;
  return { x: end.x + end.node.bar.strokesWidth, y };
};
const arriving = (system: PlacedSystem, before: number, y: number): End => ({
  x: Math.min(system.headRight - 0.2, before - 2.2),
  y,
});

/** All ties of a system, halves of broken ones included. */
export function drawTies(system: PlacedSystem, sketch: Sketch): void {
  for (const note of system.notes) {
    note.shape.event.heads.forEach((head: Head, index) => {
      const side = tieSide(note, index);
      const { start, stop } = tieEnds(note, index, side);
      if (head.tieTo !== undefined) {
        const target = system.byHead.get(head.tieTo);
        const at = target?.shape.event.heads.findIndex(each => each.id === head.tieTo) ?? 0;
        const end = target ? tieEnds(target, at, side).stop : leaving(system, start.y);
        if (end.x > start.x) sketch.add(target ? note.measure : SYSTEM, [tieMark(start, end, side, head.id)]);
      }
      if (head.tieFrom !== undefined && !system.byHead.has(head.tieFrom))
        sketch.add(SYSTEM, [tieMark(arriving(system, stop.x, stop.y), stop, side, head.id)]);
    });
  }
}

/** Notes under a slur within this system. */
function covered(
  { notes }: PlacedSystem,
  from: PlacedNote | undefined,
  to: PlacedNote | undefined,
): PlacedNote[] {
  const first = from ? notes.indexOf(from) : 0;
  const last = to ? notes.indexOf(to) : notes.length - 1;
  return notes.slice(first, last + 1);
}

function slurSide(slur: Slur, under: readonly PlacedNote[]): -1 | 1 {
  if (slur.placement) return slur.placement === 'above' ? -1 : 1;
  const main = under.filter(note => note.shape.size === 1);
  return main.length > 0 && main.every(note => note.shape.stem !== 'down') ? 1 : -1;
}

/** The ink of a note on one side: its head, or the tip of its stem or beam. */
function edgeOf(note: PlacedNote, side: -1 | 1, beams: ReadonlyMap<number, PlacedBeam>): number {
  const { shape, x } = note;
  const heads = side < 0 ? Math.min(...shape.heights) - 0.55 : Math.max(...shape.heights) + 0.55;
  const stemThere = shape.stem === (side < 0 ? 'up' : 'down');
  if (!stemThere) return heads;
  const beam = beams.get(shape.event.id);
  const tip = beam ? beamY(beam, x + shape.stemX) + side * 0.25 : shape.stemTip;
  return side < 0 ? Math.min(heads, tip) : Math.max(heads, tip);
}

function slurEnd(note: PlacedNote, side: -1 | 1, beams: ReadonlyMap<number, PlacedBeam>): End {
  const stemThere = note.shape.stem === (side < 0 ? 'up' : 'down');
  const y = edgeOf(note, side, beams) + side * (stemThere ? 0.35 : 0.3);
  return { x: stemThere ? note.x + note.shape.stemX : headCentre(note), y };
}

/** Whether a curve keeps clear of every point under it. */
export function clears(mark: CurveMark, side: -1 | 1, obstacles: readonly End[]): boolean {
  const [from, , , to] = mark.points;
  return obstacles.every(({ x, y }) => {
    const t = (x - from[0]) / (to[0] - from[0]);
    if (t <= 0.02 || t >= 0.98) return true;
    const [, at] = pointOver(mark, x);
    return side < 0 ? at <= y - 0.3 : at >= y + 0.3;
  });
}

/** The lowest bow that clears every point under it; a very high one where none does. */
export function clearingBow(
  role: 'slur' | 'tab-curve',
  from: End,
  to: End,
  side: -1 | 1,
  obstacles: readonly End[],
  of: number,
): CurveMark {
  const length = to.x - from.x;
  const lowest = role === 'slur' ? Math.min(2.2, 0.45 + length * 0.065) : Math.min(0.9, 0.35 + length * 0.03);
  for (let height = lowest; ; height += 0.25) {
    const mark = bow(role, from, to, side, height, of);
    if (height > lowest + 5 || clears(mark, side, obstacles)) return mark;
  }
}

/** The curve's point above or below an x: by bisection, x grows along it. */
function pointOver(mark: CurveMark, x: number): readonly [number, number] {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 24; step++) {
    const middle = (low + high) / 2;
    if (pointAt(mark.points, middle)[0] < x) low = middle;
    else high = middle;
  }
  return pointAt(mark.points, low);
}

/** From a grace note to its main note: a short curve under the heads, ending beside a downward stem. */
function graceSlur(from: PlacedNote, to: PlacedNote, id: number): Mark {
  const start = { x: headCentre(from), y: Math.max(...from.shape.heights) + 0.55 };
  const low = Math.max(...to.shape.heights);
  const stop =
    to.shape.stem === 'down'
      ? { x: headLeft(to) - 0.12, y: low + 0.3 }
      : { x: headCentre(to) - 0.2, y: low + 0.7 };
  return bow('slur', start, stop, 1, 0.45 + 0.05 * (stop.x - start.x), id);
}

function slurMark(
  system: PlacedSystem,
  slur: Slur,
  beams: ReadonlyMap<number, PlacedBeam>,
): Mark | undefined {
  const from = system.byEvent.get(slur.from);
  const to = system.byEvent.get(slur.to);
  const crosses = !from && !to && isInside(system, slur);
  if (!from && !to && !crosses) return undefined;
  const under = covered(system, from, to);
  if (under.length === 0) return undefined;
  if (from && to && from.shape.size < 1 && from.x === to.x) return graceSlur(from, to, slur.from);
  const side = slurSide(slur, under);
  const last = to ? slurEnd(to, side, beams) : undefined;
  const first = from ? slurEnd(from, side, beams) : undefined;
  const level = edgeOf(under[0]!, side, beams) + side * 0.6;
  const endLevel = edgeOf(under.at(-1)!, side, beams) + side * 0.6;
  const start = first ?? arriving(system, last?.x ?? system.width, last ? last.y + side * 0.3 : level);
  const stop = last ?? leaving(system, first ? first.y + side * 0.3 : endLevel);
  if (stop.x - start.x < 0.5) return undefined;
  const obstacles = under.flatMap(note => {
    const y = edgeOf(note, side, beams);
    return [
      { x: headCentre(note), y },
      { x: note.x + note.shape.stemX, y },
    ];
  });
  return clearingBow('slur', start, stop, side, obstacles, slur.from);
}

/** Whether a slur that neither starts nor ends here passes through this system. */
function isInside({ notes }: PlacedSystem, slur: Slur): boolean {
  const first = notes[0]?.shape.event.id;
  const last = notes.at(-1)?.shape.event.id;
  return first !== undefined && last !== undefined && slur.from < first && slur.to > last;
}

export function drawSlurs(
  system: PlacedSystem,
  beams: ReadonlyMap<number, PlacedBeam>,
  sketch: Sketch,
): void {
  // Inner slurs first, so that outer ones can go round them.
  const slurs = [...system.notation.tune.slurs].sort((a, b) => a.to - a.from - (b.to - b.from));
  for (const slur of slurs) {
    const mark = slurMark(system, slur, beams);
    if (mark) sketch.add(system.byEvent.get(slur.from)?.measure ?? SYSTEM, [mark]);
  }
}
