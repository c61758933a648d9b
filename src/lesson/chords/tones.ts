/**
 * Which tones of a chord a shape may do without, and which note lies at the bottom (common practice).
 *
 * A perfect fifth says least and may always go from a chord of four tones or more. Where the strings are
 * too few for all tones, the root may go too (another player has it, or the ear), and the plain ninth or
 * eleventh under a thirteenth. Thirds, sevenths, altered tones and the highest extension stay.
 */

import type { Instrument } from '../../instrument/instrument.ts';
import { reentrantStrings } from '../../instrument/places.ts';
import { type Chord, type PitchClass, pitchClass, type Tone, toneClass } from './chord.ts';

/** What a voicing of a chord must sound, and may. */
export interface ToneRules {
  /** All that may sound. */
  readonly allowed: ReadonlySet<PitchClass>;
  /** All that must. */
  readonly needed: ReadonlySet<PitchClass>;
  /** What must sound below all others; undefined where anything may. */
  readonly lowest: PitchClass | undefined;
}

/** What may and must sound when a chord is played on an instrument. */
export const toneRules = (chord: Chord, instrument: Instrument): ToneRules => {
  const bass = chord.bass && pitchClass(chord.bass);
  const allowed = new Set([...chord.tones.map(toneClass), ...(bass === undefined ? [] : [bass])]);
  const tooMany = allowed.size > instrument.strings.length;
  const needed = new Set(chord.tones.filter(tone => !mayGo(chord, tone, tooMany)).map(toneClass));
  if (bass !== undefined) needed.add(bass);
  return { allowed, needed, lowest: bass !== undefined && hasBass(instrument) ? bass : undefined };
};

/** Up to so many strings every string is a voice of the chord, and none is spared for the bass. */
const VOICES = 4;

/**
 * Whether the lowest note of a chord is heard as its bass: where strings descend, and there are more of
 * them than a full chord has voices. On a ukulele a slash chord's bass sounds, but not always lowest.
 */
export const hasBass = (instrument: Instrument): boolean =>
  instrument.strings.length > VOICES && reentrantStrings(instrument).length === 0;

const mayGo = ({ tones }: Chord, { degree, semitones }: Tone, tooMany: boolean): boolean => {
  if (degree === 5) return semitones === 7 && tones.length >= 4;
  if (degree === 1) return tooMany;
  const plain = degree === 9 ? semitones === 14 : degree === 11 && semitones === 17;
  return plain && tones.some(other => other.degree > degree);
};
