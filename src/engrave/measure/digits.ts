/** Fret figures: each on its string's line, straight under its notehead. */

import type { Notation } from '../content/notation.ts';
import type { Mark } from '../drawing/mark.ts';
import { face } from '../font/face.ts';
import { STYLE } from '../style.ts';
import type { NoteShape } from './column.ts';

/** Baseline of a figure that is centred on y. */
export const figureBaseline = (y: number, size: number): number =>
  y + (face('sansBold').figureHeight / 2000) * size;

/** A tied note is not struck again and shows no figure. */
export function digitMarks({ arrangement }: Notation, shape: NoteShape): Mark[] {
  const size = STYLE.digitSize * (shape.size < 1 ? 0.75 : 1);
  return shape.event.heads.flatMap(head => {
    const place = arrangement.placements.get(head.id);
    if (!place || head.tieFrom !== undefined) return [];
    return {
      kind: 'text' as const,
      role: 'digit' as const,
      text: String(place.fret),
      face: 'sansBold' as const,
      x: shape.dx + shape.headWidth / 2,
      y: figureBaseline((place.string - 1) * STYLE.tabSpace, size),
      size,
      anchor: 'middle' as const,
      of: head.id,
    };
  });
}
