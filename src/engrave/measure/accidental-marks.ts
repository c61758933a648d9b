/** Accidentals before their heads, in as many columns as a chord's need. */
import type { NoteEvent } from '../../score/model/event.ts';
import type { Accidental } from '../content/accidentals.ts';
import type { Notation } from '../content/notation.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { face, textWidth } from '../font/face.ts';
import { type GlyphName, glyphWidth } from '../font/glyph.ts';
import { STYLE } from '../style.ts';

const SIGNS: Readonly<Record<string, GlyphName>> = {
  '-2': 'doubleFlat',
  '-1': 'flat',
  0: 'natural',
  1: 'sharp',
  2: 'doubleSharp',
};

const accidentalGlyph = (alter: number): GlyphName => SIGNS[Math.max(-2, Math.min(2, Math.round(alter)))]!;

/** One accidental, with its brackets, ending at x = 0. */
function oneAccidental({ alter, bracketed }: Accidental, y: number, size: number, of: number): Mark[] {
  const name = accidentalGlyph(alter);
  const width = glyphWidth(name, size);
  const glyph = (x: number): Mark => ({ kind: 'glyph', role: 'accidental', name, x, y, size, of });
  if (!bracketed) return [glyph(-width)];
  const em = 2.4 * size;
  const room = textWidth('(', 'serif', em) * 0.95;
  const baseline = y + ((face('serif').capHeight / 2 - 60) / 1000) * em;
  const bracket = (text: string, x: number): Mark => ({
    kind: 'text',
    role: 'accidental',
    text,
    face: 'serif',
    x,
    y: baseline,
    size: em,
    anchor: 'start',
    of,
  });
  return [bracket('(', -width - 2 * room), glyph(-width - room), bracket(')', -room)];
}

/**
 * Accidentals of all heads. From the top head down, and from the right one of two at one height, each goes as
 * far right as the heads and the accidentals already placed allow.
 */
export function accidentalMarks(
  { accidentals }: Notation,
  event: NoteEvent,
  places: readonly { readonly id: number; readonly height: number; readonly x: number }[],
  size: number,
): Mark[] {
  const edge = Math.min(0, ...places.map(place => place.x)) - STYLE.accidentalGap * size;
  const placed: Mark[] = [];
  const shown = places
    .filter(place => accidentals.has(place.id))
    .sort((a, b) => a.height - b.height || b.x - a.x);
  for (const { id, height } of shown) {
    const marks = oneAccidental(
      accidentals.get(id)!,
      height,
      size,
      event.heads.length > 1 ? id : event.heads[0]!.id,
    );
    const box = union(marks.map(bounds))!;
    let dx = edge;
    for (const other of placed.map(bounds).sort((a, b) => b.left - a.left)) {
      const clear =
        box.bottom + 0.1 < other.top || box.top - 0.1 > other.bottom || box.left + dx > other.right;
      if (!clear && box.right + dx + 0.15 > other.left) dx = other.left - 0.15;
    }
    placed.push(...move(marks, dx, 0));
  }
  return placed;
}
