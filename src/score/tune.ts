/**
 * A tune: the one voice of one part that is arranged and printed. It is what fingering, sheets and
 * machine outputs work on; a `Score` is only ever read and chosen from.
 */

import type { Ticks } from './model/duration.ts';
import type { MusicEvent } from './model/event.ts';
import type { Heading, Measure, Slur, Tuplet } from './model.ts';

/** A measure with the events of a single voice; gaps in the voice are filled with rests. */
export interface TuneMeasure extends Omit<Measure, 'voices'> {
  readonly events: readonly MusicEvent[];
}

/** One voice of one part, in the key that it is to be played in. */
export interface Tune extends Heading {
  readonly division: Ticks;
  /** Which part and voice this is, as the file names them. */
  readonly part: string;
  readonly partName: string;
  readonly voice: string;
  /** Semitones by which the tune has been moved from the key that was read; absent for none. */
  readonly transposition?: number;
  readonly measures: readonly TuneMeasure[];
  /** Only those with both ends in the tune. */
  readonly slurs: readonly Slur[];
  readonly tuplets: readonly Tuplet[];
}
