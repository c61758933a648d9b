/** The letter that names a note, with its sharps or flats. */
import { accidentalSign } from '../../score/pitch.ts';
import type { Mark } from '../drawing/mark.ts';
import type { NoteShape } from './column.ts';
import { anchoredText } from './rich-text.ts';

/** Em. */
const SIZE = 2;

/** Notes that are struck, and of full size, are named. */
export const isNamed = ({ size, event }: NoteShape): boolean =>
  size === 1 && event.heads.some(head => head.tieFrom === undefined);

/** The letter of a note, of a chord its highest, its middle at x; baseline at y = 0. */
export function letterMarks({ event }: NoteShape, x: number): Mark[] {
  const head = event.heads.at(-1)!;
  const text = `${head.pitch.step}${accidentalSign(head.pitch.alter)}`;
  return anchoredText(text, { role: 'letter', face: 'sansBold', size: SIZE, of: head.id }, x, 0, 'middle');
}
