/** Words and dynamics below the staff. */
import type { Direction } from '../../score/model.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import type { GlyphName } from '../font/glyph.ts';
import { richText } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { type PlacedSystem, xAt } from './placed.ts';
import type { Sketch } from './sketch.ts';

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

/** A dynamic in the music font's own letters; undefined where it holds others. */
function dynamicMarks(text: string): Mark[] | undefined {
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

function marksOf(direction: Direction): Mark[] {
  if (direction.kind === 'dynamic') return dynamicMarks(direction.text) ?? words(direction.text);
  return direction.kind === 'words' && direction.placement === 'below' ? words(direction.text) : [];
}

/** What stands at the end of a measure belongs to the first note of the next. */
function startOf(system: PlacedSystem, index: number, { at }: Direction): number {
  const { line, notation } = system;
  const ends = at >= notation.tune.measures[index]!.length && index < line.last;
  return ends ? xAt(system, index + 1, 0) : xAt(system, index, at);
}

export function drawBelow(system: PlacedSystem, sketch: Sketch): void {
  const { measures } = system.notation.tune;
  for (let index = system.line.first; index <= system.line.last; index++)
    for (const direction of measures[index]!.directions) {
      const marks = marksOf(direction);
      const box = union(marks.map(bounds));
      if (!box) continue;
      const x = Math.min(startOf(system, index, direction), system.width - box.right);
      const y = Math.max(5, sketch.below(x + box.left - 0.3, x + box.right + 0.3, 4) + 0.5) - box.top;
      sketch.add(index, move(marks, x, y));
    }
}
