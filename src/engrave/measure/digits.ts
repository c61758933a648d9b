/** Fret figures: each on its string's line, straight under its notehead. */

import type { Place } from '../../instrument/instrument.ts';
import { OUTSIDE_SIGN } from '../content/figure-signs.ts';
import type { Notation } from '../content/notation.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { disc } from '../drawing/round.ts';
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

/** Raised beside a figure: a star where the window could not hold it. */
function star(figure: Mark): Mark {
  const { right, top } = bounds(figure);
  const text = { text: OUTSIDE_SIGN, face: 'sansBold', size: 1.5, anchor: 'start' } as const;
  return { kind: 'text', role: 'outside', ...text, x: right + 0.05, y: top + 0.75 };
}

/** As wide as a dot that makes a note longer, 0.4 sp (from memory), or more: less is lost in a photocopy. */
const DOT_RADIUS = 0.22;

/** Raised beside a figure: a dot where the other edition has another one. */
function dot(figure: Mark): Mark {
  const { right, top } = bounds(figure);
  return disc('outside', right + 0.1 + DOT_RADIUS, top + 0.15, DOT_RADIUS);
}

/** A tied note is not struck again and shows no figure. */
export function digitMarks({ arrangement }: Notation, shape: NoteShape): Mark[] {
  const size = STYLE.digitSize * (shape.size < 1 ? 0.75 : 1);
  return shape.event.heads.flatMap(head => {
    const place = arrangement.placements.get(head.id);
    if (!place || head.tieFrom !== undefined) return [];
    const figure = figureMark(place, shape.dx + shape.headWidth / 2, size, head.id);
    if (place.fit === 'outside') return [figure, star(figure)];
    const elsewhere = arrangement.matched?.differences.has(head.id) ?? false;
    return elsewhere ? [figure, dot(figure)] : [figure];
  });
}
