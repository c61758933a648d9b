/**
 * How hard a melody is to read, as one number: points a measure. A note is one point; a move of a third
 * half a point more, of a fourth or more one; a note off the beat half a point, or one held over the next
 * beat; an accidental two points. Our judgement: it is there to compare drills with each other.
 */
import { neededAccidentals } from '../../score/accidentals.ts';
import { beatsOf } from '../../score/beats.ts';
import { staffStep } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';

/** Points a measure; more is harder to read. */
export const readingLoad = (tune: Tune): number => {
  let points = 0;
  let before: number | undefined;
  for (const { events, key, changes, time } of tune.measures) {
    const [beat] = beatsOf(time, tune.division);
    points += 2 * neededAccidentals(events, key, changes).size;
    for (const event of events) {
      if (event.kind === 'rest') continue;
      const step = staffStep(event.heads.at(-1)!.pitch);
      const size = before === undefined ? 0 : Math.abs(step - before);
      const off = event.at % beat!;
      points += 1 + (size >= 3 ? 1 : size === 2 ? 0.5 : 0);
      points += (off > 0 ? 0.5 : 0) + (off > 0 && off + event.duration > beat! ? 0.5 : 0);
      before = step;
    }
  }
  return points / Math.max(1, tune.measures.length);
};
