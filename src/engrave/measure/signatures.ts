/** Clef, key and time signatures, set from x = 0; each returns its marks and their width. */
import type { Key, TimeSignature } from '../../score/model/attributes.ts';
import { keyHeights, type Reading } from '../content/reading.ts';
import { type Mark, move } from '../drawing/mark.ts';
import type { Role } from '../drawing/role.ts';
import { type GlyphName, glyphWidth } from '../font/glyph.ts';

export interface Block {
  readonly marks: readonly Mark[];
  readonly width: number;
}

export const NOTHING: Block = { marks: [], width: 0 };

const glyphAt = (role: Role, name: GlyphName, x: number, y: number): Mark => ({
  kind: 'glyph',
  role,
  name,
  x,
  y,
  size: 1,
});

export const clefBlock = ({ clef, clefLine }: Reading): Block => ({
  marks: [glyphAt('clef', clef, 0, clefLine)],
  width: glyphWidth(clef),
});

function accidentalsRow(name: GlyphName, heights: readonly number[], step: number): Block {
  const marks = heights.map((y, i) => glyphAt('key', name, i * step, y));
  return { marks, width: heights.length === 0 ? 0 : (heights.length - 1) * step + glyphWidth(name) };
}

/**
 * A key signature; after another key, naturals first cancel what no longer holds where the new key has
 * fewer accidentals of the same kind, or none.
 */
export function keyBlock({ fifths }: Key, reading: Reading, before?: Key): Block {
  const signs = accidentalsRow(
    fifths > 0 ? 'sharp' : 'flat',
    keyHeights(fifths, reading),
    fifths > 0 ? 1.02 : 0.88,
  );
  const old = before?.fifths ?? 0;
  const sameSide = Math.sign(old) === Math.sign(fifths);
  const cancelled =
    !before || (fifths !== 0 && !sameSide)
      ? []
      : keyHeights(old, reading).slice(sameSide ? Math.abs(fifths) : 0);
  if (cancelled.length === 0) return signs;
  const naturals = accidentalsRow('natural', cancelled, 0.95);
  const gap = signs.width > 0 ? 0.5 : 0;
  const from = naturals.width + gap;
  return {
    marks: [...naturals.marks, ...move(signs.marks, from, 0)],
    width: from + signs.width,
  };
}

const FIGURE_GAP = 0.12;
const PLUS = 0.9;
const PLUS_GAP = 0.3;

/** A plus sign that stands out from the staff lines: between them, and thicker. */
function plusMarks(x: number, y: number, role: Role): Mark[] {
  const half = PLUS / 2;
  const line = { kind: 'line', role, thickness: 0.26 } as const;
  return [
    { ...line, x1: x, y1: y, x2: x + PLUS, y2: y },
    { ...line, x1: x + half, y1: y - half, x2: x + half, y2: y + half },
  ];
}

const figureName = (figure: string) => `time${figure}` as GlyphName;
const figureWidth = (figure: string) =>
  figure === '+' ? PLUS + 2 * PLUS_GAP : glyphWidth(figureName(figure));
const figuresWidth = (text: string) =>
  [...text].reduce((sum, figure) => sum + figureWidth(figure) + FIGURE_GAP, -FIGURE_GAP);

/** Figures of a number (or a sum), centred on `middle`. */
export function figureRow(text: string, y: number, middle: number, role: Role = 'time'): Mark[] {
  let x = middle - figuresWidth(text) / 2;
  return [...text].flatMap(figure => {
    const marks =
      figure === '+' ? plusMarks(x + PLUS_GAP, y - 0.5, role) : [glyphAt(role, figureName(figure), x, y)];
    x += figureWidth(figure) + FIGURE_GAP;
    return marks;
  });
}

/** A time signature; several fractions are joined by a plus sign. Free time has none. */
export function timeBlock(time: TimeSignature | undefined): Block {
  if (time?.kind !== 'metred') return { marks: [], width: 0 };
  if (time.symbol === 'common' || time.symbol === 'cut') {
    const name = time.symbol === 'common' ? 'timeCommon' : 'timeCut';
    return { marks: [glyphAt('time', name, 0, 2)], width: glyphWidth(name) };
  }
  const marks: Mark[] = [];
  let x = 0;
  for (const { beats, beatType } of time.fractions) {
    if (x > 0) {
      marks.push(...plusMarks(x + 0.35, 1.5, 'time'));
      x += PLUS + 0.7;
    }
    const above = beats.join('+');
    const single = time.symbol === 'single-number';
    const width = Math.max(figuresWidth(above), single ? 0 : figuresWidth(String(beatType)));
    marks.push(...figureRow(above, single ? 2 : 1, x + width / 2));
    if (!single) marks.push(...figureRow(String(beatType), 3, x + width / 2));
    x += width;
  }
  return { marks, width: x };
}

/** Blocks one after another. */
export function sequence(blocks: readonly { readonly block: Block; readonly gap: number }[]): Block {
  const marks: Mark[] = [];
  let x = 0;
  for (const { block, gap } of blocks) {
    if (block.width === 0) continue;
    x += gap;
    marks.push(...move(block.marks, x, 0));
    x += block.width;
  }
  return { marks, width: x };
}
