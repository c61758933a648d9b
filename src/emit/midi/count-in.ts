/** The clicks before the tune. */
import { beatsOf } from '../../score/beats.ts';
import type { Ticks } from '../../score/model/duration.ts';
import { metreTicks } from '../../score/time.ts';
import type { Tune } from '../../score/tune.ts';

/** The clicks before the tune. */
export interface CountIn {
  /** When the tune starts, ticks. */
  readonly length: Ticks;
  readonly clicks: readonly { readonly at: Ticks; readonly accent: boolean }[];
}

/**
 * One measure of beats, or as many as are asked for. A pickup takes the end of the last one, and has a
 * measure more before it: two, unless the number is given.
 */
export const countIn = (tune: Tune, measures?: number): CountIn => {
  const [first] = tune.measures;
  const { division } = tune;
  const beats = beatsOf(first?.time, division);
  const metred = metreTicks(first?.time, division);
  const whole = metred ?? 4 * division;
  const pickup = first && metred !== undefined && first.length < metred ? first.length : 0;
  const count = measures ?? (pickup > 0 ? 2 : 1);
  const clicks = Array.from({ length: count }, (_, measure) => {
    let at = measure * whole;
    return beats.map((ticks, beat) => {
      const click = { at, accent: beat === 0 };
      at += ticks;
      return click;
    });
  }).flat();
  return { length: Math.max(0, count * whole - pickup), clicks };
};
