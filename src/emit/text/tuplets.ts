/** Tuplets: the groups that the file marks, and those that only the values of their notes betray. */

import type { Ticks } from '../../score/model/duration.ts';
import type { MusicEvent } from '../../score/model/event.ts';
import type { Tune } from '../../score/tune.ts';

/** A tuplet as it is written over its notes. */
export interface TupletSpan {
  /** Ids of the events in the group, in order. */
  readonly events: readonly number[];
  /** `3`, or `3:2` where the file prints both numbers. */
  readonly text: string;
  readonly depth: number;
}

/** Those that the file marks, and groups that only their values show. */
export const tupletSpans = (tune: Tune): readonly TupletSpan[] => {
  const events = tune.measures.flatMap(measure => measure.events);
  const indexOf = new Map(events.map(({ id }, index) => [id, index]));
  const marked = tune.tuplets.map(({ from, to, actual, normal, show, depth }) => ({
    events: events.slice(indexOf.get(from)!, indexOf.get(to)! + 1).map(({ id }) => id),
    text: show === 'both' ? `${actual}:${normal}` : `${actual}`,
    depth,
  }));
  const covered = new Set(marked.flatMap(span => span.events));
  const bare = tune.measures.flatMap(measure =>
    unmarked(
      measure.events.filter(({ id }) => !covered.has(id)),
      tune.division,
    ),
  );
  return [...marked, ...bare];
};

/** Runs of notes with one ratio, closed where they fill whole quarters. */
const unmarked = (events: readonly MusicEvent[], quarter: Ticks): readonly TupletSpan[] => {
  const spans: TupletSpan[] = [];
  let group: MusicEvent[] = [];
  const close = (): void => {
    const ratio = group[0]?.value?.ratio;
    if (ratio) spans.push({ events: group.map(({ id }) => id), text: `${ratio.actual}`, depth: 0 });
    group = [];
  };
  for (const event of events) {
    if (event.value?.ratio?.actual !== group[0]?.value?.ratio?.actual) close();
    if (!event.value?.ratio) continue;
    group.push(event);
    if (group.reduce((sum, { duration }) => sum + duration, 0) % quarter === 0) close();
  }
  close();
  return spans;
};
