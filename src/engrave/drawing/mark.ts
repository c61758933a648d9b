/**
 * The drawing primitives, one file each, and the table that answers for all of them. A mark is in
 * staff spaces while a system is laid out and in millimetres on a page.
 */
import type { Box } from './box.ts';
import { type CurveMark, curveMark } from './curve.ts';
import { type GlyphMark, glyphMark } from './glyph.ts';
import { type LineMark, lineMark } from './line.ts';
import { type PolygonMark, polygonMark } from './polygon.ts';
import type { Primitive } from './primitive.ts';
import { type TextMark, textMark } from './text.ts';

/** Whatever is painted. */
export type Mark = GlyphMark | LineMark | PolygonMark | CurveMark | TextMark;

const PRIMITIVES: { readonly [K in Mark['kind']]: Primitive<Extract<Mark, { kind: K }>> } = {
  glyph: glyphMark,
  line: lineMark,
  polygon: polygonMark,
  curve: curveMark,
  text: textMark,
};

const primitive = (mark: Mark) => PRIMITIVES[mark.kind] as Primitive<Mark>;

export const bounds = (mark: Mark): Box => primitive(mark).bounds(mark);

export const place = (mark: Mark, scale: number, dx: number, dy: number): Mark =>
  primitive(mark).place(mark, scale, dx, dy);

export const move = (marks: readonly Mark[], dx: number, dy: number): Mark[] =>
  marks.map(mark => place(mark, 1, dx, dy));
