/** First and second endings: which measures a bracket spans, and what it says. */
import type { TuneMeasure } from '../../score/tune.ts';

/** The part of an ending's bracket that lies over one measure. */
export interface EndingSpan {
  /** As printed: "1, 2". */
  readonly text: string;
  readonly starts: boolean;
  readonly stops: 'closed' | 'open' | undefined;
}

/** By measure index. An ending that the file never stops ends with the measure that it starts in. */
export const endingSpans = (measures: readonly TuneMeasure[]): readonly (EndingSpan | undefined)[] => {
  const spans: (EndingSpan | undefined)[] = measures.map(() => undefined);
  measures.forEach(({ left }, first) => {
    if (!left.ending) return;
    const text = left.ending.text || left.ending.numbers.join(', ');
    const last = stopOf(measures, first);
    const stops = measures[last]?.right.ending?.close ?? 'open';
    for (let each = first; each <= last; each++)
      spans[each] = { text, starts: each === first, stops: each === last ? stops : undefined };
  });
  return spans;
};

const stopOf = (measures: readonly TuneMeasure[], first: number): number => {
  for (let each = first; each < measures.length; each++) {
    if (measures[each]!.right.ending) return each;
    if (each > first && measures[each]!.left.ending) return each - 1;
  }
  return first;
};
