/** A music glyph: an outline from the music font, by name. */
import { type GlyphName, glyph } from '../font/glyph.ts';
import type { Ink } from './ink.ts';
import type { Primitive } from './primitive.ts';
import type { Role } from './role.ts';

/** A sign of the music font. */
export interface GlyphMark {
  readonly kind: 'glyph';
  readonly role: Role;
  readonly name: GlyphName;
  /** Of the glyph's origin: left edge of its ink, on its staff position. */
  readonly x: number;
  readonly y: number;
  /** Length of the font's staff space in the unit at hand. */
  readonly size: number;
  /** Black where it is absent. */
  readonly ink?: Ink | undefined;
  /** The head or event that it belongs to. */
  readonly of?: number | undefined;
}

export const glyphMark: Primitive<GlyphMark> = {
  bounds: ({ name, x, y, size }) => {
    const { left, top, right, bottom } = glyph(name);
    return { left: x + left * size, top: y + top * size, right: x + right * size, bottom: y + bottom * size };
  },
  place: ({ role, name, x, y, size, ink, of }, scale, dx, dy) => ({
    kind: 'glyph',
    role,
    name,
    x: x * scale + dx,
    y: y * scale + dy,
    size: size * scale,
    ink,
    of,
  }),
};
