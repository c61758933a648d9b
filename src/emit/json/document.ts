/**
 * What an arrangement is to other programs. The shape in schema.ts says what each field means, in
 * which unit; the two are checked against each other when they are compiled.
 *
 * Stable by semantic versioning: a minor version adds fields, a major one may change or remove them.
 */

/** An exact number, reduced: "3/8", "2", "0". */
export type FractionText = string;

/** A tune with its fingering on one instrument. */
export interface ArrangementDocument {
  readonly format: 'fretward-arrangement';
  readonly version: string;
  readonly tune: TuneDocument;
  readonly instrument: InstrumentDocument;
  readonly windows: readonly WindowDocument[];
  readonly cost: number;
  readonly matchedWith?: string | undefined;
  readonly measures: readonly MeasureDocument[];
  readonly notes: readonly NoteDocument[];
  readonly rests: readonly RestDocument[];
  readonly slurs: readonly SlurDocument[];
  readonly chordSymbols: readonly ChordSymbolDocument[];
  readonly marks: readonly MarkDocument[];
  readonly warnings: readonly WarningDocument[];
}

/** What is sung or played, and where in the file it was. */
export interface TuneDocument {
  readonly title?: string | undefined;
  readonly composer?: string | undefined;
  readonly lyricist?: string | undefined;
  readonly arranger?: string | undefined;
  readonly rights: readonly string[];
  readonly part: string;
  readonly partName: string;
  readonly voice: string;
  readonly transposition: number;
}

/** A pitch: its name, its spelling, and its MIDI number. */
export interface PitchDocument {
  readonly name: string;
  readonly step: string;
  readonly alter: number;
  readonly octave: number;
  readonly midi: number;
}

/** The instrument, string 1 first. */
export interface InstrumentDocument {
  readonly id: string;
  readonly name: string;
  readonly strings: readonly PitchDocument[];
  readonly frets: number;
  readonly scaleLength: number;
  readonly hand: 'one-fret-a-finger' | 'two-frets-a-finger';
  readonly clef: 'treble' | 'treble-8' | 'bass-8';
  readonly capo: number;
}

/** A window of frets, for the whole tune or for some printed measures. */
export interface WindowDocument {
  readonly low: number;
  readonly high: number;
  readonly measures?: { readonly from: number; readonly to: number } | undefined;
}

/** A key signature: sharps above zero, flats below. */
export interface KeyDocument {
  readonly fifths: number;
  readonly mode?: string | undefined;
}

/** A measure, with its bar lines. */
export interface MeasureDocument {
  readonly index: number;
  readonly number: string;
  readonly implicit: boolean;
  readonly onset: FractionText;
  readonly duration: FractionText;
  readonly metre: string | null;
  readonly key: KeyDocument;
  readonly changes?: readonly ChangeDocument[] | undefined;
  readonly repeatStarts: boolean;
  readonly repeatEnds: boolean;
  readonly times?: number | undefined;
  readonly endingStarts?: readonly number[] | undefined;
  readonly endingStops: boolean;
  readonly jumps?: readonly JumpName[] | undefined;
}

/** A change of key or metre within a measure. */
export interface ChangeDocument {
  readonly onset: FractionText;
  readonly metre?: string | null | undefined;
  readonly key?: KeyDocument | undefined;
}

/** The signs and jumps that change the order of measures. */
export type JumpName = 'segno' | 'coda' | 'dacapo' | 'dalsegno' | 'tocoda' | 'fine';

/** When something sounds: onset, beat and duration in exact fractions. */
export interface TimeDocument {
  readonly event: number;
  readonly measure: number;
  readonly onset: FractionText;
  readonly beat: FractionText;
  readonly duration: FractionText;
}

/** How a duration is written. */
export interface ValueDocument {
  readonly note: FractionText;
  readonly dots: number;
  readonly ratio?: { readonly actual: number; readonly normal: number } | undefined;
}

/** A note with its place on the neck; of a chord, each note by itself. */
export interface NoteDocument extends TimeDocument {
  readonly id: number;
  readonly value: ValueDocument;
  readonly grace: boolean;
  readonly pitch: PitchDocument;
  readonly tiedFrom?: number | undefined;
  readonly string: number;
  readonly fret: number;
  readonly finger: number;
  readonly position: number;
  readonly fit: 'inside' | 'open' | 'outside';
  readonly cost?: number | undefined;
  readonly elsewhere?: boolean | undefined;
  readonly articulations?: readonly ArticulationName[] | undefined;
  readonly fermata?: boolean | undefined;
  readonly lyrics?: readonly LyricDocument[] | undefined;
}

/** The articulations there are. */
export type ArticulationName =
  | 'staccato'
  | 'accent'
  | 'tenuto'
  | 'breath'
  | 'caesura'
  | 'staccatissimo'
  | 'marcato';

/** A syllable under a note. */
export interface LyricDocument {
  readonly verse: string;
  readonly text: string;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
}

/** A rest. */
export interface RestDocument extends TimeDocument {
  readonly value?: ValueDocument | undefined;
}

/** A slur, from one event to another. */
export interface SlurDocument {
  readonly from: number;
  readonly to: number;
}

/** A chord symbol. */
export interface ChordSymbolDocument {
  readonly measure: number;
  readonly onset: FractionText;
  readonly root?: string | undefined;
  readonly kind: string;
  readonly text?: string | undefined;
  readonly bass?: string | undefined;
  readonly degrees?:
    | readonly {
        readonly value: number;
        readonly alter: number;
        readonly type: 'add' | 'alter' | 'subtract';
      }[]
    | undefined;
}

/** What is printed over or under the staff. */
export interface MarkDocument {
  readonly measure: number;
  readonly onset: FractionText;
  readonly kind: 'words' | 'tempo' | 'rehearsal' | 'dynamic';
  readonly text?: string | undefined;
  readonly beat?: ValueDocument | undefined;
  readonly perMinute?: number | undefined;
}

/** What reading and arranging had to say. */
export interface WarningDocument {
  readonly severity: 'error' | 'warning' | 'note';
  readonly code: string;
  readonly message: string;
  readonly hint?: string | undefined;
  readonly line?: number | undefined;
  readonly measure?: string | undefined;
  readonly beat?: number | undefined;
}
