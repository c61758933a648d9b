/** How much time the hand has for a move, and what haste costs. */
import type { MoveContext } from './grip.ts';

/** A note as far as time goes, in quarter notes. */
export interface Timing {
  /** From this note's onset to the end of its sound. */
  readonly sounding: number;
  /** From the end of its sound to the next onset. */
  readonly silence: number;
}

/** A silence of so many quarter notes lets the fingers go: they are set anew, as if nothing had been. */
const LETS_GO = 2;

/**
 * The hand may leave a stopped note for the second half of its length, an open string for all of it,
 * and a rest for all of it. With half a quarter note free, haste is 1; it falls with the square root
 * of the time there is, from 2 (a thirty-second note or less) to 0.5 (a half note or more).
 * That effort falls with time: Hori & Sagayama 2016 (from memory); the numbers: our judgement.
 */
export const hasteOf = (timing: Timing): Omit<MoveContext, 'slurred'> => ({
  haste: haste(timing.sounding / 2 + timing.silence),
  hasteFromOpen: haste(timing.sounding + timing.silence),
  rested: timing.silence >= LETS_GO,
});

const haste = (free: number): number => Math.min(2, Math.max(0.5, Math.sqrt(0.5 / Math.max(free, 1e-6))));
