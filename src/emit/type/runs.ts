/**
 * Sets a text mark in fonts: cuts it into runs of one font each and places them where the layout has
 * left room. The carried fonts fill that room exactly; a run in the given font, whose widths the layout
 * could only guess, is narrowed where it would be too wide, so that nothing ever collides.
 */
import type { TextMark } from '../../engrave/drawing/text.ts';
import { textWidth } from '../../engrave/font/face.ts';
import type { Font, Fonts } from './fonts.ts';
import { type Piece, piecesOf } from './pieces.ts';

export interface Run {
  readonly text: string;
  /** Undefined where no font has the characters. */
  readonly font: Font | undefined;
  /** Left end, on the mark's baseline. */
  readonly x: number;
  readonly width: number;
  /** Horizontal scale: 1, or less for a narrowed run. */
  readonly narrowing: number;
}

/** Widths in the layout's terms, and as the font has it. */
function measure({ text, font }: Piece, { face, size }: TextMark) {
  const allotted = textWidth(text, face, size);
  if (!font || font.carried) return { allotted, natural: allotted };
  const kit = font.kit();
  return { allotted, natural: (kit.layout(text, []).advanceWidth * size) / kit.unitsPerEm };
}

const SHIFTS = { start: 0, middle: 0.5, end: 1 } as const;

/** Places the runs of a mark; blank ones are left out. */
export function setText(mark: TextMark, fonts: Fonts): readonly Run[] {
  const measured = piecesOf(mark.text, fonts(mark.face)).map(piece => ({ piece, ...measure(piece, mark) }));
  const elastic = measured.filter(({ piece: { font } }) => font && !font.carried);
  const sum = (widths: readonly number[]) => widths.reduce((total, width) => total + width, 0);
  const natural = sum(elastic.map(each => each.natural));
  const narrowing = natural > 0 ? Math.min(1, sum(elastic.map(each => each.allotted)) / natural) : 1;
  const widths = measured.map(each => (elastic.includes(each) ? each.natural * narrowing : each.natural));
  let x = mark.x - SHIFTS[mark.anchor] * sum(widths);
  const runs = measured.map(({ piece: { text, font } }, index): Run => {
    const width = widths[index]!;
    const run = { text, font, x, width, narrowing: font && !font.carried ? narrowing : 1 };
    x += width;
    return run;
  });
  return runs.filter(run => run.text.trim() !== '');
}
