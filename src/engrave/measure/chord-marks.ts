/** A chord symbol: root and letter on the line, extensions raised, slash bass on the line again. */
import type { ChordSymbol } from '../../score/model.ts';
import { chordPieces } from '../content/chord-name.ts';
import type { Mark } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import { richText } from './rich-text.ts';

const RAISED = 0.74;

/** Marks from x = 0 on the baseline y = 0. */
export function chordMarks(symbol: ChordSymbol): Mark[] {
  const marks: Mark[] = [];
  let x = 0;
  for (const { text, raised } of chordPieces(symbol)) {
    const size = STYLE.chordSize * (raised ? RAISED : 1);
    const lift = raised ? STYLE.chordSize * 0.27 : 0;
    const piece = richText(text, { role: 'chord', face: 'sansBold', size }, x + (raised ? 0.06 : 0), -lift);
    marks.push(...piece.marks);
    x += piece.width + (raised ? 0.06 : 0);
  }
  return marks;
}
