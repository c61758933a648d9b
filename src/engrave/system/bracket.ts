/** Brackets: over endings, and over or under tuplets. */
import type { LineMark } from '../drawing/line.ts';
import { STYLE } from '../style.ts';

export interface Bracket {
  readonly role: 'ending' | 'tuplet';
  readonly left: number;
  readonly right: number;
  readonly y: number;
  /** How far the ends turn down; up where negative; 0 for an end without a hook. */
  readonly hooks: { readonly left: number; readonly right: number };
  /** Where its figure stands in it: nothing is drawn from here to here. */
  readonly open?: { readonly left: number; readonly right: number };
}

/** A bracket's strokes; they meet in square corners. */
export function bracketMarks({ role, left, right, y, hooks, open }: Bracket): LineMark[] {
  const stroke = (x1: number, y1: number, x2: number, y2: number): LineMark => ({
    kind: 'line',
    role,
    x1,
    y1,
    x2,
    y2,
    thickness: STYLE.bracket,
  });
  const half = STYLE.bracket / 2;
  return [
    ...(open && open.left > left
      ? [stroke(left - half, y, open.left, y), stroke(open.right, y, right + half, y)]
      : [stroke(left - half, y, right + half, y)]),
    ...(hooks.left === 0 ? [] : [stroke(left, y, left, y + hooks.left)]),
    ...(hooks.right === 0 ? [] : [stroke(right, y, right, y + hooks.right)]),
  ];
}
