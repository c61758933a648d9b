/** Left-hand fingers: small figures to the left of their heads. */
import type { Notation } from '../content/notation.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { face, textWidth } from '../font/face.ts';

const SIZE = 1.5;
/** Between a figure and its head, so that on a staff line the two do not run together. */
const GAP = 0.36;

export function fingerMarks(
  { hand }: Notation,
  places: readonly { readonly id: number; readonly height: number }[],
  marks: readonly Mark[],
): Mark[] {
  const placed: Mark[] = [];
  const half = (face('sansBold').figureHeight / 2000) * SIZE;
  for (const { id, height } of places) {
    const finger = hand.fingers.get(id);
    if (finger === undefined) continue;
    const text = String(finger);
    const beside = [...marks, ...placed]
      .map(bounds)
      .filter(box => box.top < height + half && box.bottom > height - half);
    const edge = Math.min(0, ...beside.map(box => box.left));
    const x = edge - GAP - textWidth(text, 'sansBold', SIZE);
    const at = { x, y: height + half, size: SIZE, anchor: 'start' } as const;
    placed.push({ kind: 'text', role: 'finger', text, face: 'sansBold', ...at, of: id });
  }
  return placed;
}
