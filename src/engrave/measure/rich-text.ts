/** Text in which ♯ ♭ ♮ and their doubles are set as music glyphs: text faces lack or misdraw them. */
import { bounds, type Mark } from '../drawing/mark.ts';
import type { Role } from '../drawing/role.ts';
import type { TextMark } from '../drawing/text.ts';
import { type FaceName, face, textWidth } from '../font/face.ts';
import { type GlyphName, glyphWidth } from '../font/glyph.ts';

const SIGNS: Readonly<Record<string, GlyphName>> = {
  '♯': 'sharp',
  '♭': 'flat',
  '♮': 'natural',
  '𝄪': 'doubleSharp',
  '𝄫': 'doubleFlat',
};

export interface TextStyle {
  readonly role: Role;
  readonly face: FaceName;
  readonly size: number;
  readonly of?: number;
}

/** Marks of a text that starts at (x, y) on its baseline, and its width. */
export function richText(text: string, style: TextStyle, x = 0, y = 0): { marks: Mark[]; width: number } {
  const { role, size, of } = style;
  const tag = of === undefined ? { role } : { role, of };
  const { capHeight } = face(style.face);
  const marks: Mark[] = [];
  let at = x;
  for (const piece of text.split(/([♯♭♮]|𝄪|𝄫)/u)) {
    const name = SIGNS[piece];
    if (name) {
      const scale = size * 0.42;
      const gap = size * 0.04;
      const lift = name === 'flat' || name === 'doubleFlat' ? 0.3 : 0.5;
      marks.push({
        kind: 'glyph',
        ...tag,
        name,
        x: at + gap,
        y: y - (capHeight / 1000) * size * lift,
        size: scale,
      });
      at += glyphWidth(name, scale) + 2 * gap;
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
