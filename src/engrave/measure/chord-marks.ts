/** A chord symbol: root and letter on the line, extensions raised, slash bass on the line again. */
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import { chordPieces } from '../content/chord-name.ts';
import type { Mark } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import { richText } from './rich-text.ts';

const RAISED = 0.74;
/** The signs ° + ø are small in text faces: they are set at full size, raised less. */
const SIGNS = /([°+ø])/;

/** Marks from x = 0 on the baseline y = 0. */
export function chordMarks(symbol: ChordSymbol): Mark[] {
  const marks: Mark[] = [];
  let x = 0;
  const pieces = chordPieces(symbol);
  for (const [index, { text, raised }] of pieces.entries()) {
    const stops = index === 0 && pieces.length > 1;
    for (const part of raised ? text.split(SIGNS) : [text]) {
      if (part === '') continue;
      const full = !raised || SIGNS.test(part);
      const size = STYLE.chordSize * (full ? 1 : RAISED);
      const lift = raised ? STYLE.chordSize * (full ? 0.12 : 0.27) : 0;
      const from = x + (raised ? 0.06 : 0);
      const piece = richText(part, { role: 'chord', face: 'sansBold', size, stops }, from, -lift);
      marks.push(...piece.marks);
      x = from + piece.width;
    }
  }
  return marks;
}
