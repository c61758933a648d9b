/** Dynamics and other words below the staff, baseline at y = 0. */
import type { Direction } from '../../score/model/direction.ts';
import type { Ticks } from '../../score/model/duration.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark } from '../drawing/mark.ts';
import type { GlyphName } from '../font/glyph.ts';
import { STYLE } from '../style.ts';
import { richText } from './rich-text.ts';

interface Letter {
  readonly name: GlyphName;
  /** Where its ink starts and how far it advances, in the font's staff spaces. */
  readonly bearing: number;
  readonly advance: number;
}

const LETTERS: Readonly<Record<string, Letter>> = {
  p: { name: 'dynamicP', bearing: -0.35, advance: 1.49 },
  m: { name: 'dynamicM', bearing: -0.1, advance: 1.88 },
  f: { name: 'dynamicF', bearing: -0.54, advance: 1.17 },
  r: { name: 'dynamicR', bearing: 0.01, advance: 1.33 },
  s: { name: 'dynamicS', bearing: 0.1, advance: 1.09 },
  z: { name: 'dynamicZ', bearing: -0.19, advance: 1.09 },
};

const SIZE = 0.95;

/** Between two of them in a row. */
export const BELOW_GAP = 0.5;

/** A dynamic in the music font's own letters; undefined where it holds others. */
function inLetters(text: string): Mark[] | undefined {
  const marks: Mark[] = [];
  let pen = 0;
  for (const each of text) {
    const letter = LETTERS[each];
    if (!letter) return undefined;
    marks.push({
      kind: 'glyph',
      role: 'words',
      name: letter.name,
      x: (pen + letter.bearing) * SIZE,
      y: 0,
      size: SIZE,
    });
    pen += letter.advance;
  }
  return marks;
}

const words = (text: string): Mark[] =>
  richText(text, { role: 'words', face: 'serifItalic', size: STYLE.wordsSize }).marks;

/** The marks of a direction that stands below the staff; none of one that does not. */
export function marksBelow(direction: Direction): Mark[] {
  if (direction.kind === 'dynamic') return inLetters(direction.text) ?? words(direction.text);
  return direction.kind === 'words' && direction.placement === 'below' ? words(direction.text) : [];
}

/** How far a dynamic under the first note of a measure may reach to the left, towards the bar line. */
const BEFORE_FIRST = 0.6;

/**
 * Where the marks of a dynamic start: their middle under that of the head or rest, but at the start of a measure
 * (`moment` 0) not so far to the left that they would meet the bar line.
 */
export function dynamicX(marks: readonly Mark[], centre: number, moment: Ticks): number {
  const box = union(marks.map(bounds));
  if (!box) return 0;
  const x = centre - (box.left + box.right) / 2;
  return moment === 0 ? Math.max(x, -BEFORE_FIRST - box.left) : x;
}
