/** Repeats and endings hold for all parts; some files write them in one part alone. */
import type { Barline } from '../score/model/barline.ts';
import type { DraftMeasure } from './draft.ts';

/** Gives parts without any repeats and endings those of the first part that has some. */
export const lendRepeats = (parts: readonly (readonly DraftMeasure[])[]): void => {
  const lender = parts.find(hasRepeats);
  if (lender === undefined) return;
  for (const measures of parts) {
    if (hasRepeats(measures)) continue;
    for (const [index, { left, right }] of lender.slice(0, measures.length).entries()) {
      const measure = measures[index]!;
      measure.left = withRepeat(measure.left, left);
      measure.right = withRepeat(measure.right, right);
    }
  }
};

const hasRepeats = (measures: readonly DraftMeasure[]): boolean =>
  measures.some(({ left, right }) => left.repeat || right.repeat || left.ending !== undefined);

const withRepeat = (barline: Barline, { repeat, times, ending }: Barline): Barline => ({
  ...barline,
  repeat,
  times,
  ending,
});
