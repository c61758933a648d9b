/**
 * The score as read: every part, every voice, in exact time.
 *
 * Conventions, stated once: durations and times are integer ticks; `Score.division` ticks make a
 * quarter note, for the whole score (the reader scales divisions that change to one common number).
 * An event's `at` counts from the start of its measure, a measure's `at` from the start of the score.
 * All pitches and keys are sounding; transposing parts have been brought to sounding pitch.
 * Ids are unique in a score and ascend in document order.
 */
import type { Diagnostic, Source } from './diagnostic.ts';
import type { AttributeChange, Clef, Key, TimeSignature } from './model/attributes.ts';
import type { Barline } from './model/barline.ts';
import type { ChordSymbol } from './model/chord-symbol.ts';
import type { Direction } from './model/direction.ts';
import type { Ticks } from './model/duration.ts';
import type { MusicEvent } from './model/event.ts';

/** Everything that was read, part by part. */
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

/** A part: the music of one player. */
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

/** A measure of a part, with all its voices. */
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

/** The events of one voice in one measure. */
export interface Voice {
  readonly id: string;
  readonly staff: number;
  /** In order of time; grace notes stand before the note they lead to, at the same tick. */
  readonly events: readonly MusicEvent[];
}

/** From one event to another (ids), over measures if need be. */
export interface Slur {
  readonly from: number;
  readonly to: number;
  readonly placement: 'above' | 'below' | undefined;
}

/** A tuplet, from one event to another (ids). */
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
