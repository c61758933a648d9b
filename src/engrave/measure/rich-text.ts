/** Text in which ♯ ♭ ♮ and their doubles are set as music glyphs: text faces lack or misdraw them. */

import type { Ink } from '../drawing/ink.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
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
}

/** Marks of a text that starts at (x, y) on its baseline, and its width. */
export function richText(text: string, style: TextStyle, x = 0, y = 0): { marks: Mark[]; width: number } {
  const { role, size, of, ink } = style;
  const tag = { role, ...(of === undefined ? {} : { of }), ...(ink ? { ink } : {}) };
  const marks: Mark[] = [];
  let at = x;
  for (const piece of text.split(/([♯♭♮]|𝄪|𝄫)/u)) {
    // The word "constructor" is a word.
    const sign = Object.hasOwn(SIGNS, piece) ? SIGNS[piece] : undefined;
    if (sign) {
      const { name, lift } = sign;
      const gap = size * 0.04;
      marks.push({ kind: 'glyph', ...tag, name, x: at + gap, y: y - lift * size, size: size * sign.size });
      at += glyphWidth(name, size * sign.size) + 2 * gap;
    } else if (piece !== '') {
      marks.push({ kind: 'text', ...tag, text: piece, face: style.face, x: at, y, size, anchor: 'start' });
      at += textWidth(piece, style.face, size);
    }
  }
  return { marks, width: at - x };
}

/** The same, set in the middle of, or up to, x. */
export function anchoredText(
  text: string,
  style: TextStyle,
  x: number,
  y: number,
  anchor: TextMark['anchor'],
): Mark[] {
  const { width } = richText(text, style);
  const start = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
  return richText(text, style, start, y).marks;
}

/** Right edge of marks; `from` where there are none. */
export const rightEdge = (marks: readonly Mark[], from = 0): number =>
  marks.reduce((edge, mark) => Math.max(edge, bounds(mark).right), from);
