/** What stands for a character that no font has: an empty box, as tall as a capital. */
import type { TextMark } from '../../engrave/drawing/text.ts';
import { face } from '../../engrave/font/face.ts';
import type { Run } from './runs.ts';

export interface EmptyBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly thickness: number;
}

/** One box a character, inside the run's width. */
export function emptyBoxes({ text, x, width }: Run, mark: TextMark): readonly EmptyBox[] {
  const characters = [...text];
  const each = width / characters.length;
  const thickness = mark.size * 0.05;
  const height = (face(mark.face).capHeight * mark.size) / 1000;
  return characters.map((_, index) => ({
    x: x + each * (index + 0.12),
    y: mark.y - height + thickness / 2,
    width: each * 0.76,
    height: height - thickness,
    thickness,
  }));
}
