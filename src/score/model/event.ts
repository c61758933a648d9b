/** What a voice plays, one after the other: notes, chords and rests, with all that belongs to them. */
import type { Source } from '../diagnostic.ts';
import type { Pitch } from '../pitch.ts';
import type { NoteValue, Ticks } from './duration.ts';

/** A note, a chord or a rest. */
export type MusicEvent = NoteEvent | RestEvent;

/** What notes and rests have in common. */
export interface EventBase {
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

/** A note or a chord. */
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

/** A rest. */
export interface RestEvent extends EventBase {
  readonly kind: 'rest';
  readonly wholeMeasure: boolean;
}

/** One note head of a note or chord. */
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
  readonly marked: Marked;
  readonly source: Source;
}

/** Fingering that is already in the file; strings counted from 1 = top line of tablature. */
export interface Marked {
  readonly string: number | undefined;
  readonly fret: number | undefined;
  readonly finger: number | undefined;
}

/** No fingering in the file. */
export const UNMARKED: Marked = { string: undefined, fret: undefined, finger: undefined };

/** What a beam does at a note, on one level. */
export type BeamMark = 'begin' | 'continue' | 'end' | 'forward hook' | 'backward hook';

/** Signs that are kept and printed. */
export type Articulation =
  | 'staccato'
  | 'accent'
  | 'tenuto'
  | 'breath'
  | 'caesura'
  | 'staccatissimo'
  | 'marcato';

/** A syllable of one verse. */
export interface Lyric {
  /** The verse as the file names it, mostly "1", "2". */
  readonly verse: string;
  /** Syllables joined by elision hold U+203F between them. */
  readonly text: string;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
  /** The syllable is held over following notes. */
  readonly extend: boolean;
}
