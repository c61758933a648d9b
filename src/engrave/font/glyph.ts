/** The music glyphs that were taken out of the music font at build time, in staff spaces. */
import { GLYPHS } from './glyphs.generated.ts';

/** The name of a sign in the music font. */
export type GlyphName = keyof typeof GLYPHS;

export interface Glyph {
  /** SVG path data, y downwards. */
  readonly path: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** Heights of the outline's outermost points: where stems meet a head. */
  readonly leftmost: number;
  readonly rightmost: number;
}

export const glyph = (name: GlyphName): Glyph => GLYPHS[name];

export const glyphWidth = (name: GlyphName, size = 1): number => GLYPHS[name].right * size;
