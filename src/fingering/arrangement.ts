/** What the solver answers: a place and a finger for every struck note of a tune. */
import type { Instrument, Place } from '../instrument/instrument.ts';
import type { Source } from '../score/diagnostic.ts';
import type { Pitch } from '../score/pitch.ts';

/** The range of frets that notes are forced into, both ends included. */
export interface FretWindow {
  readonly low: number;
  readonly high: number;
}

/** A window for the whole tune, or from one printed measure number to another, both included. */
export interface WindowRule {
  readonly measures: { readonly from: number; readonly to: number } | undefined;
  readonly window: FretWindow;
}

/** 0 is an open string, 1 the index finger, 4 the little finger. */
export type Finger = 0 | 1 | 2 | 3 | 4;

/** Inside the window; an open string that rescues a note without a place there; or neither. */
export type Fit = 'inside' | 'open' | 'outside';

/** Where and how a note is played. */
export interface Placement extends Place {
  readonly finger: Finger;
  /** The fret at which the index finger rests, also while an open string rings. */
  readonly position: number;
  readonly fit: Fit;
}

/** A note that has no place in the window: an open string rescued it, or it was played outside. */
export interface Misfit {
  readonly head: number;
  readonly pitch: Pitch;
  readonly source: Source;
  /** Beats of the time signature's lower number from the start of the measure, 1-based. */
  readonly beat: number;
  /** The window in force there. */
  readonly window: FretWindow | undefined;
  readonly placement: Placement;
}

/** A tune’s fingering on an instrument. */
export interface Arrangement {
  readonly instrument: Instrument;
  /** The window, where one is in force for the whole tune. */
  readonly window: FretWindow | undefined;
  /** All windows that were asked for, as far as the tune goes. */
  readonly windows: readonly WindowRule[];
  /** By head id; tied-to heads carry the placement of the head that was struck. */
  readonly placements: ReadonlyMap<number, Placement>;
  readonly misfits: readonly Misfit[];
  /** Where the edition was matched with another: its instrument, and the heads that lie elsewhere. */
  readonly matched?: { readonly instrument: Instrument; readonly differences: ReadonlySet<number> };
  /** Cost of the whole fingering in thousandths of a point (an exact integer). */
  readonly cost: number;
  /** What of it each strike costs, by the first of the heads struck, in the same unit. */
  readonly costs: ReadonlyMap<number, number>;
}
