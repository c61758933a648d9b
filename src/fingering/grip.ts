/**
 * A grip: what the left hand does for one struck note or chord: which finger stops which place, and
 * where the hand is meanwhile. Grips are the states among which the solver looks for a path.
 */
import type { Place } from '../instrument/instrument.ts';
import type { Finger, Fit } from './arrangement.ts';

/** A place where a note may lie, and whether that is in the window. */
export interface FitPlace extends Place {
  readonly fit: Fit;
}

/** A finger at a place. */
export interface Touch extends Place {
  /** 0 on an open string. */
  readonly finger: Finger;
}

/** The hand at one strike. */
export interface Grip {
  /** One for each note struck, by string number. */
  readonly touches: readonly Touch[];
  /** The fret under the index finger; carried on while open strings ring. */
  readonly position: number;
  readonly fit: Fit;
  /** How far outside the window the grip lies, mm along the neck; 0 unless `fit` is 'outside'. */
  readonly astray: number;
}

/** What a move from one grip to the next has to happen in. */
export interface MoveContext {
  /** How much harder the hand's journey is than over a quarter note, 0.5 … 2; see `time.ts`. */
  readonly haste: number;
  /** The same where the string left behind is open, and the hand free while it rings. */
  readonly hasteFromOpen: number;
  /** After a silence so long that the fingers are set anew; see `time.ts`. */
  readonly rested: boolean;
  /** Both notes lie under one slur. */
  readonly slurred: boolean;
}

/** Whether a grip needs no finger. */
export const isOpen = (grip: Grip): boolean => grip.touches.every(touch => touch.finger === 0);

/** What the fingers do from one grip to the next. */
export interface FingerMove {
  /** Where the hand goes: −1 down the neck, 1 up, 0 while it stays. */
  readonly shift: -1 | 0 | 1;
  /** From one single note to another. */
  readonly melodic: boolean;
  /** Both notes lie under one slur. */
  readonly slurred: boolean;
}

/** The direction of a shift between two positions. */
export const shiftOf = (from: number, to: number): FingerMove['shift'] =>
  to > from ? 1 : to < from ? -1 : 0;
