/** Chord symbols, as the file gives them. */
import type { Source } from '../diagnostic.ts';
import type { Step } from '../pitch.ts';
import type { Ticks } from './duration.ts';

/** A chord symbol over the staff. */
export interface ChordSymbol {
  readonly at: Ticks;
  /** Undefined for "no chord". */
  readonly root: ChordNote | undefined;
  /** A value of MusicXML's kind-value list: "major", "dominant", "half-diminished", … */
  readonly kind: string;
  /** How the file spells the kind, where it says: "m7", "". */
  readonly text: string | undefined;
  readonly bass: ChordNote | undefined;
  readonly degrees: readonly ChordDegree[];
  readonly source: Source;
}

/** A root or a bass: a note without an octave. */
export interface ChordNote {
  readonly step: Step;
  readonly alter: number;
}

/** A degree that is added, altered or left out. */
export interface ChordDegree {
  readonly value: number;
  readonly alter: number;
  readonly type: 'add' | 'alter' | 'subtract';
}
