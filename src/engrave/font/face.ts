/**
 * The text faces' own measures, taken at build time: layout is the same on a machine that has none of
 * the fonts. Nothing is kerned, here or in the output.
 */
import { FACES } from './faces.generated.ts';

/** The name of a text face. */
export type FaceName = keyof typeof FACES;

export interface Face {
  readonly family: string;
  readonly weight: number;
  readonly style: string;
  /** In 1/1000 em, as are the widths. */
  readonly ascent: number;
  readonly descent: number;
  readonly capHeight: number;
  readonly xHeight: number;
  readonly figureHeight: number;
  readonly widths: Readonly<Record<string, number>>;
}

export const face = (name: FaceName): Face => FACES[name];

/** Widths of what the carried fonts lack are a guess: full width for ideographs, 0.6 em for others. */
const guess = (character: string): number =>
  /\p{M}|[\u200b-\u200f]/u.test(character) ? 0 : character >= '\u2e80' ? 1000 : 600;

export const carried = (character: string, name: FaceName): boolean => character in face(name).widths;

/** Width of a text at an em size, in the size's unit. */
export function textWidth(text: string, name: FaceName, size: number): number {
  const { widths } = face(name);
  let sum = 0;
  for (const character of text.normalize('NFC')) sum += widths[character] ?? guess(character);
  return (sum * size) / 1000;
}
