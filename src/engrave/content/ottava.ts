/** Ottava lines: the events that stand under one, and the octaves by which they sound higher than printed. */
import type { Tune } from '../../score/tune.ts';

/** Octaves by event id; events under no line are missing. */
export function ottavas({ measures }: Tune): Map<number, number> {
  const found = new Map<number, number>();
  let octaves = 0;
  for (const { events, directions } of measures) {
    const marks = directions.filter(each => each.kind === 'octave-shift').sort((a, b) => a.at - b.at);
    for (const event of events) {
      while (marks[0] && marks[0].at <= event.at) {
        const mark = marks.shift()!;
        octaves = mark.end ? 0 : mark.octaves;
      }
      if (octaves !== 0) found.set(event.id, octaves);
    }
    // What ends or starts after the last event holds from the next measure on.
    for (const mark of marks) octaves = mark.end ? 0 : mark.octaves;
  }
  return found;
}
