/** Fret figures: each on its string's line, straight under its notehead. */

import type { Place } from '../../instrument/instrument.ts';
import { ELSEWHERE_SIGN, OUTSIDE_SIGN } from '../content/figure-signs.ts';
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

/** Raised beside a figure: a star where the window could not hold it, a dot where the other edition has another. */
function besideFigure(figure: Mark, sign: keyof typeof BESIDE): Mark {
  const { right, top } = bounds(figure);
  return {
    kind: 'text',
    role: 'outside',
    ...BESIDE[sign],
    face: 'sansBold',
    x: right + 0.05,
    y: top + BESIDE[sign].drop,
    anchor: 'start',
  };
}

const BESIDE = {
  outside: { text: OUTSIDE_SIGN, size: 1.5, drop: 0.75 },
  elsewhere: { text: ELSEWHERE_SIGN, size: 1.1, drop: 0.5 },
} as const;

/** A tied note is not struck again and shows no figure. */
export function digitMarks({ arrangement }: Notation, shape: NoteShape): Mark[] {
  const size = STYLE.digitSize * (shape.size < 1 ? 0.75 : 1);
  return shape.event.heads.flatMap(head => {
    const place = arrangement.placements.get(head.id);
    if (!place || head.tieFrom !== undefined) return [];
    const figure = figureMark(place, shape.dx + shape.headWidth / 2, size, head.id);
    if (place.fit === 'outside') return [figure, besideFigure(figure, 'outside')];
    const elsewhere = arrangement.matched?.differences.has(head.id) ?? false;
    return elsewhere ? [figure, besideFigure(figure, 'elsewhere')] : [figure];
  });
}
