/** A run of text in one face; its width is the face's own, without kerning. */
import { type FaceName, face, textWidth } from '../font/face.ts';
import type { Ink } from './ink.ts';
import type { Primitive } from './primitive.ts';
import type { Role } from './role.ts';

/** A line of text. */
export interface TextMark {
  readonly kind: 'text';
  readonly role: Role;
  readonly text: string;
  readonly face: FaceName;
  /** Of the end or middle that `anchor` names, on the baseline. */
  readonly x: number;
  readonly y: number;
  /** Em size. */
  readonly size: number;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Black where it is absent. */
  readonly ink?: Ink | undefined;
  readonly of?: number | undefined;
}

/** Letters beyond ASCII count as tall: many carry marks above. */
const TALL = /[A-Z0-9bdfhklt/()[\]|]|[^ -~]/;
const DEEP = /[gjpqyQ,;()[\]|/ßçşţ]/;

/** How far letters with descenders reach below the baseline, in the unit of the size. */
export const depth = (name: FaceName, size: number): number => (face(name).descent * 0.72 * size) / 1000;

export const textMark: Primitive<TextMark> = {
  /** Around the letters that are there: no taller than an x where nothing ascends. */
  bounds: ({ text, face: name, x, y, size, anchor }) => {
    const { capHeight, xHeight } = face(name);
    const width = textWidth(text, name, size);
    const left = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
    const above = TALL.test(text) ? capHeight : xHeight;
    const below = DEEP.test(text) ? depth(name, size) : 0;
    return { left, top: y - (above * size) / 1000, right: left + width, bottom: y + below };
  },
  place: ({ role, text, face: name, x, y, size, anchor, ink, of }, scale, dx, dy) => ({
    kind: 'text',
    role,
    text,
    face: name,
    x: x * scale + dx,
    y: y * scale + dy,
    size: size * scale,
    anchor,
    ink,
    of,
  }),
};
