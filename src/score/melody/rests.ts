/** Rests where a voice is silent without saying so. */

import type { Ticks } from '../model/duration.ts';
import type { MusicEvent, RestEvent } from '../model/event.ts';
import { writtenRests } from '../time.ts';
import type { TuneMeasure } from '../tune.ts';

/** The measure without gaps. An empty one gets a whole-measure rest. New rests have id 0. */
export const fillGaps = (measure: TuneMeasure, division: Ticks): TuneMeasure => {
  const { events, length } = measure;
  if (events.length === 0 && length > 0) {
    return { ...measure, events: [rest(measure, 0, length, undefined)] };
  }
  const filled: MusicEvent[] = [];
  let now: Ticks = 0;
  for (const event of events) {
    filled.push(...restsBetween(measure, now, event.at, division), event);
    now = Math.max(now, event.at + event.duration);
  }
  filled.push(...restsBetween(measure, now, length, division));
  return { ...measure, events: filled };
};

const restsBetween = (measure: TuneMeasure, from: Ticks, to: Ticks, division: Ticks): readonly RestEvent[] =>
  writtenRests(from, to, division).map(({ at, ticks, value }) => rest(measure, at, ticks, value));

const rest = (measure: TuneMeasure, at: Ticks, duration: Ticks, value: RestEvent['value']): RestEvent => ({
  kind: 'rest',
  id: 0,
  at,
  duration,
  value,
  fermata: false,
  wholeMeasure: value === undefined,
  source: measure.source,
});
