/** Text in which ♯ ♭ ♮ and their doubles are set as music glyphs: text faces lack or misdraw them. */

import type { Ink } from '../drawing/ink.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import type { Role } from '../drawing/role.ts';
import type { TextMark } from '../drawing/text.ts';
import { type FaceName, textWidth } from '../font/face.ts';
import { type GlyphName, glyphWidth } from '../font/glyph.ts';

interface Sign {
  readonly name: GlyphName;
  /** Staff space of the glyph, in em. */
  readonly size: number;
  /** Height of its origin above the baseline, in em. */
  readonly lift: number;
}

/** Flats stand on the baseline; the others in the middle of the capitals. */
const SIGNS: Readonly<Record<string, Sign>> = {
  '♯': { name: 'sharp', size: 0.29, lift: 0.34 },
  '♭': { name: 'flat', size: 0.34, lift: 0.23 },
  '♮': { name: 'natural', size: 0.29, lift: 0.34 },
  '𝄪': { name: 'doubleSharp', size: 0.36, lift: 0.33 },
  '𝄫': { name: 'doubleFlat', size: 0.34, lift: 0.23 },
};

export interface TextStyle {
  readonly role: Role;
  readonly face: FaceName;
  readonly size: number;
  readonly of?: number;
  readonly ink?: Ink;
  /** Something follows that it must not run into, whatever face stands in for its own: it is anchored at its end. */
  readonly stops?: boolean;
}

/** Marks of a text that starts at (x, y) on its baseline, and its width. Before a sign, text is anchored at its end. */
export function richText(text: string, style: TextStyle, x = 0, y = 0): { marks: Mark[]; width: number } {
  const { role, size, of, ink } = style;
  const tag = { role, ...(of === undefined ? {} : { of }), ...(ink ? { ink } : {}) };
  const marks: Mark[] = [];
  let at = x;
  const pieces = text.split(/([♯♭♮]|𝄪|𝄫)/u);
  for (const [index, piece] of pieces.entries()) {
    // The word "constructor" is a word.
    const sign = Object.hasOwn(SIGNS, piece) ? SIGNS[piece] : undefined;
    if (sign) {
      const { name, lift } = sign;
      const gap = size * 0.04;
      marks.push({ kind: 'glyph', ...tag, name, x: at + gap, y: y - lift * size, size: size * sign.size });
      at += glyphWidth(name, size * sign.size) + 2 * gap;
    } else if (piece !== '') {
      // Some programs drop the spaces at the ends of a text: beside a sign they are room.
      const word = pieces.length > 1 ? piece.trim() : piece;
      const from = at + textWidth(piece.slice(0, piece.indexOf(word)), style.face, size);
      const to = from + textWidth(word, style.face, size);
      const stops = index + 1 < pieces.length || style.stops;
      const place = stops ? ({ x: to, anchor: 'end' } as const) : ({ x: from, anchor: 'start' } as const);
      if (word !== '') marks.push({ kind: 'text', ...tag, text: word, face: style.face, ...place, y, size });
      at += textWidth(piece, style.face, size);
    }
  }
  return { marks, width: at - x };
}

/** The same, set in the middle of, or up to, x: plain text is anchored there, whatever face stands in for its own. */
export function anchoredText(
  text: string,
  style: TextStyle,
  x: number,
  y: number,
  anchor: TextMark['anchor'],
): Mark[] {
  const { marks, width } = richText(text, style, 0, y);
  const [only] = marks;
  if (marks.length === 1 && only?.kind === 'text') return [{ ...only, x, anchor }];
  return move(marks, x - width * BEFORE[anchor], 0);
}

/** Which part of a text lies before its anchor. */
const BEFORE = { start: 0, middle: 0.5, end: 1 } as const;

/** Right edge of marks; `from` where there are none. */
export const rightEdge = (marks: readonly Mark[], from = 0): number =>
  marks.reduce((edge, mark) => Math.max(edge, bounds(mark).right), from);
