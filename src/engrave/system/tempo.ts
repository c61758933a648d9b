/** A tempo mark: words, and a small note that equals a number of beats a minute. */
import type { Direction } from '../../score/model/direction.ts';
import type { Mark } from '../drawing/mark.ts';
import { glyph, glyphWidth } from '../font/glyph.ts';
import { headGlyph } from '../measure/note-shape.ts';
import { richText } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';

type Tempo = Extract<Direction, { kind: 'tempo' }>;

const SIZE = 0.72;

/** A small note standing on the baseline. */
function smallNote({ base, dots }: Tempo['beat'], x: number): { marks: Mark[]; right: number } {
  const name = headGlyph(base);
  const y = -0.4;
  const width = glyphWidth(name, SIZE);
  const marks: Mark[] = [{ kind: 'glyph', role: 'words', name, x, y, size: SIZE }];
  let right = x + width;
  const stemX = right - 0.05;
  const tip = y - 3.2 * SIZE;
  if (base >= 2)
    marks.push({
      kind: 'line',
      role: 'words',
      x1: stemX,
      y1: y + glyph(name).rightmost * SIZE,
      x2: stemX,
      y2: tip,
      thickness: 0.1,
    });
  if (base >= 8) {
    marks.push({
      kind: 'glyph',
      role: 'words',
      name: base >= 32 ? 'flag32' : base >= 16 ? 'flag16' : 'flag8',
      x: stemX - 0.05,
      y: tip,
      size: SIZE,
    });
    right += glyphWidth('flag8', SIZE) * 0.9;
  }
  for (let i = 0; i < dots; i++) {
    marks.push({ kind: 'glyph', role: 'words', name: 'dot', x: right + 0.3, y, size: SIZE });
    right += 0.6;
  }
  return { marks, right };
}

/** Marks from x = 0 on the baseline. */
export function tempoMarks(tempo: Tempo): Mark[] {
  const words = richText(tempo.text ?? '', {
    role: 'words',
    face: 'serifBold',
    size: STYLE.wordsSize * 1.05,
  });
  if (tempo.perMinute === undefined) return words.marks;
  const gap = words.width > 0 ? words.width + 0.9 : 0;
  const note = smallNote(tempo.beat, gap);
  const number = richText(
    `= ${tempo.perMinute}`,
    { role: 'words', face: 'serif', size: STYLE.wordsSize },
    note.right + 0.45,
  );
  return [...words.marks, ...note.marks, ...number.marks];
}
