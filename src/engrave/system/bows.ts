/** Curves that keep clear of what is under them, and where broken ones leave and enter a system. */
import type { Slur } from '../../score/model.ts';
import { bow, type CurveMark, type End, pointAt } from '../drawing/curve.ts';
import type { PlacedSystem } from './placed.ts';

/** −1 bows upwards, 1 downwards. */
export type Side = -1 | 1;

/** The staff's edges as ends of a curve that goes on in the next system, or comes from what is left of `edge`. */
export const leaving = (system: PlacedSystem, y: number): End => {
  const end = system.bars.at(-1)!;
  return { x: end.x + end.node.bar.strokesWidth, y };
};
export const arriving = (edge: number, before: number, y: number): End => ({
  x: Math.min(edge + 0.15, before - 1.4),
  y,
});

/** How near its ends a curve need not clear anything: a share of its length, and at most so far. */
const NEAR = 0.02;
const NEAR_AT_MOST = 0.4;

/** Whether a curve keeps clear of every point under it. */
function clears(mark: CurveMark, side: Side, obstacles: readonly End[]): boolean {
  const [[from], , , [to]] = mark.points;
  const near = Math.min(NEAR * (to - from), NEAR_AT_MOST);
  return obstacles.every(({ x, y }) => {
    if (x <= from + near || x >= to - near) return true;
    const [, at] = pointOver(mark, x);
    return side < 0 ? at <= y - 0.3 : at >= y + 0.3;
  });
}

type BowRole = 'slur' | 'tab-curve';

/** A curve that is to be drawn from one end to another. */
export interface Course {
  readonly role: BowRole;
  readonly from: End;
  readonly to: End;
  readonly side: Side;
  /** What it goes round. */
  readonly obstacles: readonly End[];
  /** Id of the event that it starts from. */
  readonly of: number;
}

/** How high a bow is that has nothing to clear, by its length. */
const lowest = (role: BowRole, length: number): number =>
  role === 'slur' ? Math.min(2.2, 0.45 + length * 0.065) : Math.min(0.9, 0.35 + length * 0.03);

/** Added to the height of a bow until it clears, at most. */
const MOST = 5;
const STEP = 0.25;
/** How level bows are tried, and by how much one may be higher than the lowest of them. */
const LEVELS = [0, 0.25, 0.5, 0.75, 1] as const;
const TOO_HIGH = 0.6;

/** How far the ends are raised, one after the other, where no bow between them clears what is under it. */
const RAISED = [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4] as const;

/**
 * A bow from end to end that clears every point under it: no more level than it must be to stay low, its ends
 * raised only where nothing else helps. A very high one where that does not help either.
 */
export function clearingBow({ role, from, to, side, obstacles, of }: Course): CurveMark {
  const low = lowest(role, to.x - from.x);
  const isClear = (mark: CurveMark): boolean => clears(mark, side, obstacles);
  // Most have nothing in their way, and none could be lower.
  let last = bow(role, from, to, side, low, of);
  if (isClear(last)) return last;
  for (const by of RAISED) {
    const [start, stop] = [raised(from, side * by), raised(to, side * by)];
    const tried = LEVELS.map(level => {
      for (let height = low; ; height += STEP) {
        const mark = bow(role, start, stop, side, height, of, level);
        if (height > low + MOST || isClear(mark)) return mark;
      }
    });
    const clear = tried.filter(isClear).map(mark => ({ mark, outer: side * outermost(mark, side) }));
    const least = Math.min(...clear.map(({ outer }) => outer));
    const best = clear.find(({ outer }) => outer <= least + TOO_HIGH);
    if (best) return best.mark;
    last = tried.at(-1)!;
  }
  return last;
}

const raised = ({ x, y }: End, by: number): End => ({ x, y: y + by });

/** y of the point of a curve that lies farthest to a side. */
const outermost = ({ points }: CurveMark, side: Side): number => {
  const ys = [0, 0.25, 0.5, 0.75, 1].map(t => pointAt(points, t)[1]);
  return side < 0 ? Math.min(...ys) : Math.max(...ys);
};

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

/** Points along a curve that an outer one goes round. */
export const ridge = (mark: CurveMark): End[] =>
  [0.15, 0.3, 0.5, 0.7, 0.85].map(t => {
    const [x, y] = pointAt(mark.points, t);
    return { x, y };
  });

/** Whether a slur that neither starts nor ends in a system passes through it. */
export function passesThrough({ notes }: PlacedSystem, { from, to }: Slur): boolean {
  const first = notes[0]?.shape.event.id;
  const last = notes.at(-1)?.shape.event.id;
  return first !== undefined && last !== undefined && from < first && to > last;
}
