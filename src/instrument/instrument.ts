/**
 * A fretted instrument: strings, frets, lengths, and how the hand lies on it.
 *
 * Strings are numbered as tablature and MusicXML number them: string 1 is the top line of
 * tablature. Nothing here assumes that strings ascend in pitch: a re-entrant ukulele's fourth
 * string sounds above its third.
 */
import type { Pitch } from '../score/pitch.ts';

/** A string and a fret; fret 0 is the open string. Frets count from the capo where there is one. */
export interface Place {
  readonly string: number;
  readonly fret: number;
}

/** How fingers fall on the frets from the index finger on. */
export type HandSpread = 'one-fret-a-finger' | 'two-frets-a-finger';

/** The clef the instrument reads; the octave clefs are written an octave above the sound. */
export type ReadingClef = 'treble' | 'treble-8' | 'bass-8';

/** A kind of fretted instrument, strung and perhaps with a capo. */
export interface Instrument {
  /** What `--instrument` takes, and file names carry. */
  readonly id: string;
  /** What a sheet prints. */
  readonly name: string;
  /** Open strings without the capo, string 1 first. */
  readonly strings: readonly Pitch[];
  /** Highest fret of the bare neck. */
  readonly frets: number;
  /** Nut to saddle, mm. */
  readonly scaleLength: number;
  readonly hand: HandSpread;
  readonly clef: ReadingClef;
  /** Fret of the capo; 0 for none. Places, windows and positions count frets from it. */
  readonly capo: number;
}
