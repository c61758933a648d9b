/** Curves that keep clear of what is under them, and where broken ones leave and enter a system. */
import { bow, type CurveMark, type End, pointAt } from '../drawing/curve.ts';
import type { PlacedSystem } from './placed.ts';

/** −1 bows upwards, 1 downwards. */
export type Side = -1 | 1;

/** The staff's edges as ends of a curve that goes on in the next system, or comes from the last. */
export const leaving = (system: PlacedSystem, y: number): End => {
  const end = system.bars.at(-1)!;
  return { x: end.x + end.node.bar.strokesWidth, y };
};
export const arriving = (system: PlacedSystem, before: number, y: number): End => ({
  x: Math.min(system.headRight + 0.15, before - 1.4),
  y,
});

/** Whether a curve keeps clear of every point under it. */
export function clears(mark: CurveMark, side: Side, obstacles: readonly End[]): boolean {
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
  side: Side,
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

/** Points along a curve that an outer one goes round. */
export const ridge = (mark: CurveMark): End[] =>
  [0.15, 0.3, 0.5, 0.7, 0.85].map(t => {
    const [x, y] = pointAt(mark.points, t);
    return { x, y };
  });
