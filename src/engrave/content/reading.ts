/** How an instrument's clef reads: which line a sounding pitch is written on. */
import type { ReadingClef } from '../../instrument/instrument.ts';
import { type Pitch, staffStep } from '../../score/pitch.ts';
import type { GlyphName } from '../font/glyph.ts';

export interface Reading {
  readonly clef: GlyphName;
  /** Height of the clef's own line, sp below the top line. */
  readonly clefLine: number;
  /** Octaves from the sounding to the written pitch. */
  readonly octaves: number;
  /** Diatonic step (see `staffStep`) of the top line, as written. */
  readonly topLine: number;
  /** By how far key signatures stand lower than in the treble clef, sp. */
  readonly keyShift: number;
}

const F5 = 7 * 5 + 3;
const A3 = 7 * 3 + 5;

const READINGS: Readonly<Record<ReadingClef, Reading>> = {
  treble: { clef: 'clefG', clefLine: 3, octaves: 0, topLine: F5, keyShift: 0 },
  'treble-8': { clef: 'clefG8', clefLine: 3, octaves: 1, topLine: F5, keyShift: 0 },
  'bass-8': { clef: 'clefF8', clefLine: 1, octaves: 1, topLine: A3, keyShift: 1 },
};

export const readingOf = (clef: ReadingClef): Reading => READINGS[clef];

/** Height of a sounding pitch on the staff: sp below the top line. */
export const staffHeight = (pitch: Pitch, { octaves, topLine }: Reading, ottava = 0): number =>
  (topLine - staffStep(pitch) - 7 * (octaves - ottava)) / 2;

/** Heights of the sharps and flats of a signature in their fixed order, treble clef. */
const SHARPS = [0, 1.5, -0.5, 1, 2.5, 0.5, 2];
const FLATS = [2, 0.5, 2.5, 1, 3, 1.5, 3.5];

/** Where the accidentals of a key stand, first to last. */
export const keyHeights = (fifths: number, { keyShift }: Reading): number[] =>
  (fifths > 0 ? SHARPS : FLATS).slice(0, Math.abs(fifths)).map(height => height + keyShift);
