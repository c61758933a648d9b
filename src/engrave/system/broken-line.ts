/** A line of a staff in pieces, left out where a figure or letter stands on it, so that both can be read. */
import type { Box } from '../drawing/box.ts';
import type { LineMark } from '../drawing/line.ts';

/** The line's clearance at each side of a figure. */
const CLEAR = 0.18;
/** Pieces shorter than this are specks. */
const SPECK = 0.05;

/** The pieces of a line from x = 0 to `width` that keep clear of what stands on it, and of nothing else. */
export function brokenLine(
  { role, y, thickness }: { readonly role: LineMark['role']; readonly y: number; readonly thickness: number },
  width: number,
  standing: readonly Box[],
): LineMark[] {
  const gaps = standing
    .filter(box => box.top < y + 0.2 && box.bottom > y - 0.2)
    .map(box => [box.left - CLEAR, box.right + CLEAR] as const)
    .sort((a, b) => a[0] - b[0]);
  const pieces: LineMark[] = [];
  let x = 0;
  const piece = (to: number) => {
    if (to - x > SPECK) pieces.push({ kind: 'line', role, x1: x, y1: y, x2: to, y2: y, thickness });
  };
  for (const [from, to] of gaps) {
    piece(from);
    x = Math.max(x, to);
  }
  piece(width);
  return pieces;
}
