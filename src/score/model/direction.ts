/** What stands above or below the staff and belongs to a moment: words, tempo, signs, dynamics. */
import type { Source } from '../diagnostic.ts';
import type { NoteValue, Ticks } from './duration.ts';

/** Words, a tempo, a sign or a dynamic, at this tick of a measure. */
export type Direction = {
  readonly at: Ticks;
  /** The staff of the part at which it is printed; undefined for the first, or for all. */
  readonly staff?: number;
  readonly source: Source;
} & (
  | { readonly kind: 'words'; readonly text: string; readonly placement: 'above' | 'below' }
  | {
      readonly kind: 'tempo';
      /** Beats a minute of `beat`; undefined where the mark is words alone. */
      readonly perMinute: number | undefined;
      readonly beat: NoteValue;
      /** What is printed, where it is not the equation: "Andante". */
      readonly text: string | undefined;
      /** False for a tempo that only sounds (no printed mark). */
      readonly printed: boolean;
    }
  | { readonly kind: 'sign'; readonly sign: 'segno' | 'coda' }
  | {
      readonly kind: 'jump';
      readonly jump: 'dacapo' | 'dalsegno' | 'tocoda' | 'fine';
      /** As printed: "D.C. al Fine". */
      readonly text: string;
    }
  | { readonly kind: 'rehearsal'; readonly text: string }
  | { readonly kind: 'dynamic'; readonly text: string }
  | { readonly kind: 'octave-shift'; readonly octaves: number; readonly end: boolean }
);
