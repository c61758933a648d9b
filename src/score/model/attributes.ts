/** Key, time signature and clef, and where in a measure they change. */
import type { Ticks } from './duration.ts';

/** A change of key, time or clef, at this tick of a measure. */
export interface AttributeChange {
  readonly at: Ticks;
  readonly key?: Key;
  readonly time?: TimeSignature;
  readonly clef?: Clef;
}

/** A key signature. */
export interface Key {
  /** Sharps above, flats below zero: −7 … 7. */
  readonly fifths: number;
  readonly mode: string | undefined;
}

/** A time signature, or the sign that there is none. */
export type TimeSignature =
  | {
      readonly kind: 'metred';
      /** One entry a fraction: 3/8 + 2/4 has two; "3+2 over 8" is one with beats [3, 2]. */
      readonly fractions: readonly { readonly beats: readonly number[]; readonly beatType: number }[];
      readonly symbol: 'fraction' | 'common' | 'cut' | 'single-number';
    }
  | { readonly kind: 'senza-misura' };

/** A clef. */
export interface Clef {
  readonly sign: 'G' | 'F' | 'C' | 'TAB' | 'percussion' | 'none' | 'jianpu';
  readonly line: number;
  /** −1 for a clef that sounds an octave lower. */
  readonly octaveChange: number;
}

/** The treble clef. */
export const TREBLE_CLEF: Clef = { sign: 'G', line: 2, octaveChange: 0 };

/** No sharps, no flats, and no mode said. */
export const NO_SIGNATURE: Key = { fifths: 0, mode: undefined };
