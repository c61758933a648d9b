/**
 * The score as read: every part, every voice, in exact time.
 *
 * Conventions, stated once: durations and times are integer ticks; `Score.division` ticks make a
 * quarter note, for the whole score (the reader scales divisions that change to one common number).
 * An event's `at` counts from the start of its measure, a measure's `at` from the start of the score.
 * All pitches and keys are sounding; transposing parts have been brought to sounding pitch.
 * Ids are unique in a score and ascend in document order.
 */
import type { Diagnostic } from './diagnostic.ts';
import type { Pitch, Step } from './pitch.ts';

/** Whole ticks; `Score.division` of them make a quarter note. */
export type Ticks = number;

/** Where something stands in the file that was read. */
export interface Source {
  /** Line in the (unpacked) XML file, 1-based. */
  readonly line: number;
  /** The part's id, as the file gives it. */
  readonly part: string;
  /** The measure's number as printed, not its index. */
  readonly measure: string;
}

export interface Score extends Heading {
  readonly division: Ticks;
  readonly parts: readonly Part[];
}

/** What stands at the head of a printed tune. Absent fields are absent in the file. */
export interface Heading {
  readonly title?: string;
  readonly composer?: string;
  readonly lyricist?: string;
  readonly arranger?: string;
  readonly rights: readonly string[];
}

export interface Part {
  readonly id: string;
  readonly name: string;
  /** Semitones from the written to the sounding pitch that the reader has applied; 0 for most. */
  readonly transposed: number;
  readonly measures: readonly Measure[];
  readonly slurs: readonly Slur[];
  readonly tuplets: readonly Tuplet[];
  /** What makes a voice unfit to be the melody, in document order: unpitched notes, quarter tones. */
  readonly faults?: readonly VoiceFault[];
  /** What the file has in this part beyond this model. */
  readonly leftOut?: readonly LeftOut[];
}

/** A note that cannot be played as it is written; a rest stands in its place. */
export interface VoiceFault {
  readonly voice: string;
  readonly diagnostic: Diagnostic;
}

/** Notation of one kind that is not kept; none of it changes the notes. */
export interface LeftOut {
  /** In words, in the plural: "hairpins". */
  readonly what: string;
  readonly count: number;
  readonly first: Source;
}

export interface Measure {
  /** 0-based, unique; printed numbers may repeat or be missing. */
  readonly index: number;
  /** As printed: "1", "0", "12a", "X1". */
  readonly number: string;
  /** A pickup or a split measure whose number is not printed or counted. */
  readonly implicit: boolean;
  readonly at: Ticks;
  /** The real extent: what the longest voice fills, not what the time signature promises. */
  readonly length: Ticks;
  /** In force at the measure's start, changes at tick 0 included. */
  readonly key: Key;
  readonly time: TimeSignature | undefined;
  readonly clef: Clef;
  /** Only what changes here, in order of time. */
  readonly changes: readonly AttributeChange[];
  readonly voices: readonly Voice[];
  readonly chordSymbols: readonly ChordSymbol[];
  readonly directions: readonly Direction[];
  readonly left: Barline;
  readonly right: Barline;
  /** A break that the file asks for before this measure. */
  readonly breakBefore: 'system' | 'page' | undefined;
  readonly source: Source;
}

export interface AttributeChange {
  readonly at: Ticks;
  readonly key?: Key;
  readonly time?: TimeSignature;
  readonly clef?: Clef;
}

export interface Key {
  /** Sharps above, flats below zero: −7 … 7. */
  readonly fifths: number;
  readonly mode: string | undefined;
}

export type TimeSignature =
  | {
      readonly kind: 'metred';
      /** One entry a fraction: 3/8 + 2/4 has two; "3+2 over 8" is one with beats [3, 2]. */
      readonly fractions: readonly { readonly beats: readonly number[]; readonly beatType: number }[];
      readonly symbol: 'fraction' | 'common' | 'cut' | 'single-number';
    }
  | { readonly kind: 'senza-misura' };

export interface Clef {
  readonly sign: 'G' | 'F' | 'C' | 'TAB' | 'percussion' | 'none' | 'jianpu';
  readonly line: number;
  /** −1 for a clef that sounds an octave lower. */
  readonly octaveChange: number;
}

export interface Voice {
  readonly id: string;
  readonly staff: number;
  /** In order of time; grace notes stand before the note they lead to, at the same tick. */
  readonly events: readonly MusicEvent[];
}

export type MusicEvent = NoteEvent | RestEvent;

interface EventBase {
  readonly id: number;
  /** Ticks from the start of the measure. */
  readonly at: Ticks;
  /** Sounding length in ticks; 0 for grace notes. */
  readonly duration: Ticks;
  /** The written value; undefined for a rest that fills its measure. */
  readonly value: NoteValue | undefined;
  readonly fermata: boolean;
  readonly source: Source;
}

export interface NoteEvent extends EventBase {
  readonly kind: 'note';
  readonly value: NoteValue;
  /** One head, or the heads of a chord from the lowest pitch to the highest. */
  readonly heads: readonly Head[];
  readonly grace: 'slashed' | 'plain' | undefined;
  readonly cue: boolean;
  readonly stem: 'up' | 'down' | undefined;
  /** One entry a beam level, from the eighth-note beam on; empty where the file gives none. */
  readonly beams: readonly BeamMark[];
  readonly articulations: readonly Articulation[];
  readonly lyrics: readonly Lyric[];
}

export interface RestEvent extends EventBase {
  readonly kind: 'rest';
  readonly wholeMeasure: boolean;
}

export interface Head {
  readonly id: number;
  /** Sounding. */
  readonly pitch: Pitch;
  /** An accidental that the file prints although, or because, the rules would not. */
  readonly courtesy: boolean;
  /** The head that this one is tied to, and from: both are heads of the same pitch. */
  readonly tieTo: number | undefined;
  readonly tieFrom: number | undefined;
  /** Ends of ties that the file has here without another end: they hold nothing, the note is struck. */
  readonly looseTies?: readonly ('start' | 'stop')[];
  /** Fingering that is already in the file; strings counted from 1 = top line of tablature. */
  readonly marked: {
    readonly string: number | undefined;
    readonly fret: number | undefined;
    readonly finger: number | undefined;
  };
  readonly source: Source;
}

/** How a duration is written. */
export interface NoteValue {
  /** Denominator of the undotted value: 4 is a quarter, 1 a whole, 0.5 a breve, 0.25 a long. */
  readonly base: number;
  readonly dots: number;
  /** Notes in the time of: 3 in the time of 2 for a triplet; the product over nested tuplets. */
  readonly ratio: { readonly actual: number; readonly normal: number } | undefined;
}

export type BeamMark = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

export type Articulation =
  | 'staccato'
  | 'accent'
  | 'tenuto'
  | 'breath'
  | 'caesura'
  | 'staccatissimo'
  | 'marcato';

/** From one event to another (ids), over measures if need be. */
export interface Slur {
  readonly from: number;
  readonly to: number;
  readonly placement: 'above' | 'below' | undefined;
}

export interface Tuplet {
  readonly from: number;
  readonly to: number;
  /** As printed: 3 or 3:2; `show` says which. */
  readonly actual: number;
  readonly normal: number;
  readonly show: 'actual' | 'both' | 'none';
  /** Undefined: by the rules (a bracket only where no beam shows the group). */
  readonly bracket: boolean | undefined;
  /** 0 for an outermost tuplet, 1 for one inside it, … */
  readonly depth: number;
}

export interface Lyric {
  /** The verse as the file names it, mostly "1", "2". */
  readonly verse: string;
  /** Syllables joined by elision hold U+203F between them. */
  readonly text: string;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
  /** The syllable is held over following notes. */
  readonly extend: boolean;
}

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

export interface ChordNote {
  readonly step: Step;
  readonly alter: number;
}

export interface ChordDegree {
  readonly value: number;
  readonly alter: number;
  readonly type: 'add' | 'alter' | 'subtract';
}

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

export interface Barline {
  readonly style: 'regular' | 'double' | 'final' | 'dashed' | 'dotted' | 'heavy' | 'none' | 'reverse-final';
  /** At the left: a repeat starts; at the right: it ends. */
  readonly repeat: boolean;
  /** How often the repeated passage is played in all; 2 unless the file says otherwise. */
  readonly times: number;
  /** At the left: an ending starts here; at the right: it stops. */
  readonly ending: Ending | undefined;
}

export interface Ending {
  readonly numbers: readonly number[];
  /** As printed: "1, 2". */
  readonly text: string;
  /** At a right bar line: with a downward jog, or left open. */
  readonly close: 'closed' | 'open';
}
