/** Makes every ending start, stop and have a number: files leave one or the other out. */
import type { Barline, Ending } from '../score/model/barline.ts';
import type { DraftMeasure, Omissions } from './draft.ts';

/** Closes endings that are left open, drops stops of endings that never started, and numbers the rest. */
export const completeEndings = (measures: readonly DraftMeasure[], omissions: Omissions): void => {
  let open: number | undefined;
  /** The ending that stops with the measure before, or still runs. */
  let last: Ending | undefined;
  for (const [index, measure] of measures.entries()) {
    if (measure.left.ending !== undefined) {
      measure.left = withEnding(measure.left, numbered(measure.left.ending, last));
      if (open !== undefined) closeAt(measures, open, index - 1, omissions);
      open = index;
    } else if (open === undefined) last = undefined;
    last = open === undefined ? last : measures[open]!.left.ending;
    if (measure.right.ending === undefined) continue;
    if (open === undefined) {
      omissions.add('endings without a start', measure.source);
      measure.right = withEnding(measure.right, undefined);
    } else {
      const ending = measures[open]!.left.ending!;
      measure.right = withEnding(measure.right, { ...ending, close: measure.right.ending.close });
    }
    open = undefined;
  }
  if (open !== undefined) closeAt(measures, open, measures.length - 1, omissions);
};

/** An ending that shows no number (MusicXML 4.0, ending-number: spaces) is the one after the one before it. */
const numbered = (ending: Ending, before: Ending | undefined): Ending =>
  ending.numbers.length > 0 ? ending : { ...ending, numbers: [Math.max(0, ...(before?.numbers ?? [])) + 1] };

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

const withEnding = (barline: Barline, ending: Ending | undefined): Barline => ({ ...barline, ending });
