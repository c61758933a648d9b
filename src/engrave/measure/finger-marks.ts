/**
 * Left-hand fingers: small figures over a single note, clear of the staff, as bowed strings read them; left of the
 * heads of a chord, as guitars do, since over the staff they would not say which head they mean (common practice in
 * handbooks of engraving, from memory).
 */
import type { Notation } from '../content/notation.ts';
import type { Box } from '../drawing/box.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import type { TextMark } from '../drawing/text.ts';
import { textWidth } from '../font/face.ts';
import type { NoteShape } from './column.ts';
import { figureBaseline } from './digits.ts';

/** Em of a figure over a note. */
const OVER = 1.5;
/** Beside a head it is no higher than the space between two staff lines; before small heads and over them, too. */
const SMALL = 1.3;
/** Between a figure and its head. */
const GAP = 0.3;
/** Between figures of one chord, one above the other. */
const APART = 0.12;
const figureWidth = textWidth('4', 'sansBold', SMALL);

const figure = (text: string, x: number, y: number, size: number, of: number): TextMark => ({
  kind: 'text',
  role: 'finger',
  text,
  face: 'sansBold',
  x,
  y,
  size,
  anchor: 'middle',
  of,
});

/** Figures left of the heads of a chord, each at its head's height; `marks` are what it has beside them. */
export function fingersBeside(
  { hand }: Notation,
  places: readonly { readonly id: number; readonly height: number }[],
  marks: readonly Mark[],
): Mark[] {
  if (places.length < 2) return [];
  const placed: Mark[] = [];
  for (const { id, height } of places) {
    const finger = hand.fingers.get(id);
    if (finger === undefined) continue;
    const text = String(finger);
    const mark = figure(text, 0, figureBaseline(height, SMALL), SMALL, id);
    const { top, bottom } = bounds(mark);
    const atHeight = (box: Box) => box.top < bottom + APART && box.bottom > top - APART;
    const taken = placed.map(bounds).filter(atHeight);
    const heads = marks.map(bounds).filter(atHeight);
    const edge = rightmostEdge(Math.min(0, ...heads.map(box => box.left)), taken);
    placed.push({ ...mark, x: edge - GAP - textWidth(text, 'sansBold', SMALL) / 2 });
  }
  return placed;
}

/** Where a figure stands as near as can be: left of the heads, or of figures that leave it no room there. */
function rightmostEdge(edge: number, taken: readonly Box[]): number {
  const inTheWay = taken.filter(({ right }) => right > edge - GAP - figureWidth);
  const next = Math.min(edge, ...inTheWay.map(({ left }) => left));
  return next < edge ? rightmostEdge(next, taken) : edge;
}

/** The figure over a single note, its baseline at y = 0: how high it stands is known when the system is drawn. */
export function fingerOver({ hand }: Notation, { event, dx, headWidth, size }: NoteShape): Mark[] {
  const [head, ...others] = event.heads;
  const finger = head && hand.fingers.get(head.id);
  if (finger === undefined || others.length > 0) return [];
  return [figure(String(finger), dx + headWidth / 2, 0, size < 1 ? SMALL : OVER, head!.id)];
}
