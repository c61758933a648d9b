/**
 * The signs that a sheet is drawn with, in Unicode and in seven bits. Only characters that terminals
 * show in one column: box drawing, geometric shapes, and the three accidentals of Miscellaneous
 * Symbols; nothing from the Musical Symbols block, which few terminal fonts hold.
 */

import { ELSEWHERE_SIGN } from '../../engrave/content/figure-signs.ts';

/** One column of a bar line. `heavy-start` stands left of its thin line, `heavy-end` right of it. */
export type BarColumn = 'thin' | 'heavy-start' | 'heavy-end' | 'dashed' | 'dots' | 'blank';

/** Box-drawing characters of one stroke, by the arms they have. */
interface Strokes {
  /** Up and down only: where no horizontal line is. */
  readonly plain: string;
  /** With horizontal lines on both sides, on the left only, on the right only; top, inner, bottom row. */
  readonly both: readonly [string, string, string];
  readonly left: readonly [string, string, string];
  readonly right: readonly [string, string, string];
}

/** The characters that a text sheet is drawn with. */
export interface Signs {
  readonly ascii: boolean;
  readonly line: string;
  readonly head: { readonly filled: string; readonly open: string; readonly grace: string };
  /** By alteration in semitones, −2 … 2. */
  readonly accidentals: Readonly<Record<string, string>>;
  readonly bars: Readonly<Record<BarColumn, Strokes>>;
  /** Ending bracket: start, line, stop. */
  readonly ending: readonly [string, string, string];
  /** Tuplet bracket: start, line, stop. */
  readonly tuplet: readonly [string, string, string];
  readonly repeatDot: string;
  readonly separator: string;
  readonly dash: string;
  /** Beside a figure that the edition it was matched with has elsewhere. */
  readonly elsewhere: string;
}

const same = (sign: string): Strokes => {
  const three = [sign, sign, sign] as const;
  return { plain: sign, both: three, left: three, right: three };
};

const strokes = (plain: string, both: string, left: string, right: string): Strokes => ({
  plain,
  both: triple(both),
  left: triple(left),
  right: triple(right),
});

const triple = (text: string): readonly [string, string, string] => {
  const [top = '', inner = '', bottom = ''] = Array.from(text);
  return [top, inner, bottom];
};

const HEAVY = strokes('┃', '┰╂┸', '┒┨┚', '┎┠┖');

const UNICODE: Signs = {
  ascii: false,
  line: '─',
  head: { filled: '●', open: '○', grace: '◦' },
  accidentals: { '-2': '♭♭', '-1': '♭', '0': '♮', '1': '♯', '2': 'x' },
  bars: {
    thin: strokes('│', '┬┼┴', '┐┤┘', '┌├└'),
    'heavy-start': HEAVY,
    'heavy-end': HEAVY,
    dashed: strokes('┊', '┬┼┴', '┐┤┘', '┌├└'),
    dots: { ...same('─'), plain: ' ' },
    blank: { ...same('─'), plain: ' ' },
  },
  ending: ['┌', '─', '┐'],
  tuplet: ['└', '─', '┘'],
  repeatDot: '•',
  separator: ' · ',
  dash: '–',
  elsewhere: ELSEWHERE_SIGN,
};

const ASCII: Signs = {
  ascii: true,
  line: '-',
  head: { filled: '@', open: 'O', grace: 'o' },
  accidentals: { '-2': 'bb', '-1': 'b', '0': 'n', '1': '#', '2': 'x' },
  bars: {
    thin: same('|'),
    'heavy-start': same('['),
    'heavy-end': same(']'),
    dashed: same(':'),
    dots: { ...same('-'), plain: ' ' },
    blank: { ...same('-'), plain: ' ' },
  },
  ending: ['|', '-', '|'],
  tuplet: ['\\', '_', '/'],
  repeatDot: 'o',
  separator: ' - ',
  dash: '-',
  elsewhere: '+',
};

/** Those of Unicode, or their seven-bit stand-ins. */
export const signsFor = (ascii: boolean): Signs => (ascii ? ASCII : UNICODE);
