/** A run of text in one face; its width is the face's own, without kerning. */
import { type FaceName, face, textWidth } from '../font/face.ts';
import type { Box } from './box.ts';
import type { Ink } from './ink.ts';
import type { Role } from './role.ts';

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
  readonly ink?: Ink;
  readonly of?: number;
}

/** Letters beyond ASCII count as tall: many carry marks above. */
const TALL = /[A-Z0-9bdfhklt/()[\]|]|[^ -~]/;
const DEEP = /[gjpqyQ,;()[\]|/ßçşţ]/;

export const textMark = {
  /** Around the letters that are there: no taller than an x where nothing ascends. */
  bounds: ({ text, face: name, x, y, size, anchor }: TextMark): Box => {
    const { capHeight, xHeight, descent } = face(name);
    const width = textWidth(text, name, size);
    const left = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
    const above = TALL.test(text) ? capHeight : xHeight;
    const below = DEEP.test(text) ? descent * 0.72 : 0;
    return { left, top: y - (above * size) / 1000, right: left + width, bottom: y + (below * size) / 1000 };
  },
  place: (mark: TextMark, scale: number, dx: number, dy: number): TextMark => ({
    ...mark,
    x: mark.x * scale + dx,
    y: mark.y * scale + dy,
    size: mark.size * scale,
  }),
};
