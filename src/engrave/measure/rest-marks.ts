/** Rests, on the middle of the staff. */
import type { RestEvent } from '../../score/model/event.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import { type GlyphName, glyphWidth } from '../font/glyph.ts';
import { dotMarks } from './note-shape.ts';

/** Blocks: left, top, width, height. A whole rest hangs from the fourth line, a half rest lies on the third. */
const BLOCKS: Readonly<Record<string, readonly [top: number, width: number, height: number]>> = {
  0.25: [1, 0.6, 2],
  0.5: [1, 0.6, 1],
  1: [1, 1.2, 0.55],
  2: [1.45, 1.2, 0.55],
};

const GLYPHS: Readonly<Record<string, GlyphName>> = {
  4: 'restQuarter',
  8: 'rest8',
  16: 'rest16',
  32: 'rest32',
  64: 'rest64',
  128: 'rest128',
};

function symbol(base: number, of: number | undefined): { mark: Mark; width: number } {
  const block = BLOCKS[base];
  if (block) {
    const [top, width, height] = block;
    const points = [
      [0, top],
      [width, top],
      [width, top + height],
      [0, top + height],
    ] as const;
    return { mark: { kind: 'polygon', role: 'rest', points, of }, width };
  }
  const name = GLYPHS[Math.min(base, 128)]!;
  return { mark: { kind: 'glyph', role: 'rest', name, x: 0, y: 2, size: 1, of }, width: glyphWidth(name) };
}

/** Marks from x = 0; a rest without a value of its own fills its measure. */
export function restMarks(event: Pick<RestEvent, 'value' | 'wholeMeasure'> & { readonly id?: number }): {
  marks: Mark[];
  width: number;
} {
  const base = event.wholeMeasure || !event.value ? 1 : event.value.base;
  const { mark, width } = symbol(base, event.id);
  const dots = event.wholeMeasure ? 0 : (event.value?.dots ?? 0);
  const marks = [mark, ...dotMarks([1.5], dots, width + 0.35, event.id)];
  return { marks, width: union(marks.map(bounds))!.right };
}
