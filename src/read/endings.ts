/** Makes every ending start and stop: files leave one or the other out. */
import type { Barline } from '../score/model/barline.ts';
import type { DraftMeasure, Omissions } from './draft.ts';

/** Closes endings that are left open, and drops stops of endings that never started. */
export const completeEndings = (measures: readonly DraftMeasure[], omissions: Omissions): void => {
  let open: number | undefined;
  for (const [index, measure] of measures.entries()) {
    if (measure.left.ending !== undefined) {
      if (open !== undefined) closeAt(measures, open, index - 1, omissions);
      open = index;
    }
    if (measure.right.ending === undefined) continue;
    if (open === undefined) {
      omissions.add('endings without a start', measure.source);
      measure.right = { ...measure.right, ending: undefined };
    } else {
      measure.right = {
        ...measure.right,
        ending: { ...measures[open]!.left.ending!, close: measure.right.ending.close },
      };
    }
    open = undefined;
  }
  if (open !== undefined) closeAt(measures, open, measures.length - 1, omissions);
};

/** Closes an ending at its repeat, or else where its first measure ends. */
const closeAt = (
  measures: readonly DraftMeasure[],
  from: number,
  last: number,
  omissions: Omissions,
): void => {
  const start = measures[from]!;
  omissions.add('endings without an end', start.source);
  const repeat = measures.findIndex((each, index) => index >= from && index <= last && each.right.repeat);
  const end = measures[repeat < 0 ? from : repeat]!;
  const close = end.right.repeat ? 'closed' : 'open';
  end.right = withEnding(end.right, { ...start.left.ending!, close });
};

const withEnding = (barline: Barline, ending: Barline['ending']): Barline => ({ ...barline, ending });
