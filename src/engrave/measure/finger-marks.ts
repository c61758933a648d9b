/** Left-hand fingers: small figures to the left of their heads. */
import type { Notation } from '../content/notation.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { face, textWidth } from '../font/face.ts';

const SIZE = 1.5;

export function fingerMarks(
  { hand }: Notation,
  places: readonly { readonly id: number; readonly height: number }[],
  marks: readonly Mark[],
): Mark[] {
  return places.flatMap(({ id, height }): Mark[] => {
    const finger = hand.fingers.get(id);
    if (finger === undefined) return [];
    const text = String(finger);
    const half = (face('sansBold').figureHeight / 2000) * SIZE;
    const beside = marks.map(bounds).filter(box => box.top < height + half && box.bottom > height - half);
    const edge = Math.min(0, ...beside.map(box => box.left));
    const x = edge - 0.25 - textWidth(text, 'sansBold', SIZE);
    return [
      {
        kind: 'text',
        role: 'finger',
        text,
        face: 'sansBold',
        x,
        y: height + half,
        size: SIZE,
        anchor: 'start',
        of: id,
      },
    ];
  });
}
