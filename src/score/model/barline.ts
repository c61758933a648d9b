/** Bar lines, with the repeats and endings that they mark. */

export interface Barline {
  readonly style: 'regular' | 'double' | 'final' | 'dashed' | 'dotted' | 'heavy' | 'none' | 'reverse-final';
  /** At the left: a repeat starts; at the right: it ends. */
  readonly repeat: boolean;
  /** How often the repeated passage is played in all; 2 unless the file says otherwise. */
  readonly times: number;
  /** At the left: an ending starts here; at the right: it stops. */
  readonly ending: Ending | undefined;
}

/** A single bar line at which nothing repeats. */
export const PLAIN_BARLINE: Barline = { style: 'regular', repeat: false, times: 2, ending: undefined };

/** What ends a tune: a final bar line, where the file asks for no other (common practice). */
export const closing = (barline: Barline): Barline =>
  barline.style === 'regular' && !barline.repeat ? { ...barline, style: 'final' } : barline;

/** The bar line at the right of one of a tune's measures, which the next one may ask for; the last one closes. */
export const rightBarline = (
  measures: readonly { readonly left: Barline; readonly right: Barline }[],
  index: number,
): Barline => {
  const { right } = measures[index]!;
  const next = measures[index + 1]?.left;
  if (next === undefined) return closing(right);
  const isPlain = right.style === 'regular' && !right.repeat && !next.repeat;
  return isPlain && next.style !== 'regular' ? { ...right, style: next.style } : right;
};

/** A first, second, … ending. */
export interface Ending {
  readonly numbers: readonly number[];
  /** As printed: "1, 2". */
  readonly text: string;
  /** At a right bar line: with a downward jog, or left open. */
  readonly close: 'closed' | 'open';
}
