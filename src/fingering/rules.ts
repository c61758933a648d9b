/** What the teacher asks of a fingering, before the solver looks for the cheapest. */
import type { FretWindow } from './arrangement.ts';

/**
 * When an open string may sound: never; to rescue a note that has no place in the window; or as
 * freely as any other place.
 */
export type OpenPolicy = 'never' | 'rescue' | 'free';

/**
 * What becomes of a note without a place in the window: it goes to the place that the hand reaches
 * best, or the tune is refused.
 */
export type OutsidePolicy = 'nearest' | 'refuse';

export interface Rules {
  readonly window: FretWindow | undefined;
  readonly open: OpenPolicy;
  readonly outside: OutsidePolicy;
}

/** The rules where nothing is said: open strings only rescue inside a window, and are free without one. */
export const rulesFor = (
  window: FretWindow | undefined,
  open?: OpenPolicy,
  outside: OutsidePolicy = 'nearest',
): Rules => ({ window, open: open ?? (window ? 'rescue' : 'free'), outside });
