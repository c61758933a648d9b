/** What is to be made: of a tune its sheets, or a lesson; how they look, and how large the tune may be. */
import type { Format, SheetStyle } from '../emit/formats.ts';
import type { PartOptions } from '../engrave/booklet/parts.ts';
import type { SheetName } from '../engrave/options.ts';
import type { EditionsAsked } from '../fingering/editions.ts';
import type { PartsAsked } from '../lesson/pack/make.ts';
import type { PackAsked, PackWords } from '../lesson/pack/pack.ts';
import { MOST } from '../read/limits.ts';
import type { MelodyChoice } from '../score/melody.ts';

/** Which sheets in which formats, and how they look. */
export interface Printing {
  readonly formats: readonly Format[];
  readonly sheets: readonly SheetName[];
  readonly style: SheetStyle;
}

/** What a tune may hold at most; more is refused before it costs time and memory. */
export interface Limits {
  /** Bytes of a file, and of the XML in it. */
  readonly maxBytes: number;
  /** Notes of all parts together. */
  readonly maxNotes: number;
}

export const LIMITS: Limits = { maxBytes: MOST.bytes, maxNotes: MOST.notes };

/** Of a tune its sheets. */
export interface Job extends EditionsAsked, Printing {
  readonly kind: 'tune';
  readonly choice: MelodyChoice;
  readonly limits: Limits;
}

/** Of a tune a lesson. */
export interface LessonJob extends Omit<PackAsked, 'words' | 'details'> {
  readonly kind: 'lesson';
  readonly details: Omit<PartsAsked, 'cues'> & { readonly cues: CuesAsked };
  readonly choice: MelodyChoice;
  readonly limits: Limits;
  readonly words: Omit<PackWords, 'lesson' | 'notes'> & {
    /** The title of the tune where it is undefined. */
    readonly lesson: string | undefined;
    /** Markdown. */
    readonly notes: string | undefined;
    /** BCP 47 tag of the language it is written in. */
    readonly language: string;
  };
  /** Of the files of single parts, and of the tune; booklets are PDF. */
  readonly formats: readonly Format[];
  readonly style: SheetStyle;
  /** How diagrams are drawn, beyond the layout of all sheets. */
  readonly diagrams: Pick<PartOptions, 'leftHanded' | 'show' | 'upright'>;
}

interface CuesAsked {
  readonly every: number | undefined;
  /** How strings are called. */
  readonly strings: 'names' | 'numbers';
}
