/** Fret figures: each on its string's line, straight under its notehead. */

import type { Place } from '../../instrument/instrument.ts';
import type { Notation } from '../content/notation.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { face } from '../font/face.ts';
import { STYLE } from '../style.ts';
import type { NoteShape } from './column.ts';

/** Baseline of a figure that is centred on y. */
export const figureBaseline = (y: number, size: number): number =>
  y + (face('sansBold').figureHeight / 2000) * size;

/** A fret as a figure, its middle at x, on its string's line. */
export function figureMark(
  place: Place,
  x: number,
  size: number,
  of: number,
  text = String(place.fret),
): Mark {
  return {
    kind: 'text',
    role: 'digit',
    text,
    face: 'sansBold',
    x,
    y: figureBaseline((place.string - 1) * STYLE.tabSpace, size),
    size,
    anchor: 'middle',
    of,
  };
}

/** A star beside a figure that the window could not hold. */
function outsideMark(figure: Mark): Mark {
  const { right, top } = bounds(figure);
  return {
    kind: 'text',
    role: 'outside',
    text: '*',
    face: 'sansBold',
    x: right + 0.05,
    y: top + 0.75,
    size: 1.5,
    anchor: 'start',
  };
}

/** A tied note is not struck again and shows no figure. */
export function digitMarks({ arrangement }: Notation, shape: NoteShape): Mark[] {
  const size = STYLE.digitSize * (shape.size < 1 ? 0.75 : 1);
  return shape.event.heads.flatMap(head => {
    const place = arrangement.placements.get(head.id);
    if (!place || head.tieFrom !== undefined) return [];
    const figure = figureMark(place, shape.dx + shape.headWidth / 2, size, head.id);
    return place.fit === 'outside' ? [figure, outsideMark(figure)] : [figure];
  });
}
