/** How keys and time signatures are called in words. */

import type { Key, TimeSignature } from './model/attributes.ts';
import { counted } from './numbers.ts';
import { accidentalSign, type Step } from './pitch.ts';

/** Steps in the order of fifths, from F on; the major key of n sharps starts on FIFTHS[n + 1]. */
const FIFTHS: readonly Step[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** By how many fifths the tonic of a mode lies above that of the major key with the same signature. */
export const MODES: ReadonlyMap<string, number> = new Map([
  ['major', 0],
  ['ionian', 0],
  ['mixolydian', 1],
  ['dorian', 2],
  ['minor', 3],
  ['aeolian', 3],
  ['phrygian', 4],
  ['locrian', 5],
  ['lydian', -1],
]);

/** Sharps of the major key on a tonic; flats count negative. */
export const majorFifths = ({ step, alter }: { readonly step: Step; readonly alter: number }): number =>
  FIFTHS.indexOf(step) - 1 + 7 * alter;

/** "F major", "C♯ dorian"; the major key where the file names no mode. */
export const keyName = ({ fifths, mode }: Key): string => {
  const offset = MODES.get(mode ?? 'major');
  if (offset === undefined) return signatureName(fifths);
  const place = fifths + offset + 1;
  const step = FIFTHS[((place % 7) + 7) % 7]!;
  return `${step}${accidentalSign(Math.floor(place / 7))} ${mode ?? 'major'}`;
};

/** What stands in a key signature: "3 flats", "1 sharp". */
export const signatureName = (fifths: number): string =>
  counted(Math.abs(fifths), fifths < 0 ? 'flat' : 'sharp');

/** "6/8", "3+2/8", "3/8 + 2/4", "no metre". */
export const metreName = (time: TimeSignature | undefined): string => {
  if (time === undefined) return 'none given';
  if (time.kind === 'senza-misura') return 'no metre';
  return time.fractions.map(({ beats, beatType }) => `${beats.join('+')}/${beatType}`).join(' + ');
};

/** "up 5 semitones", "down an octave". */
export const movedName = (semitones: number): string => {
  const size = Math.abs(semitones);
  const far = size === 12 ? 'an octave' : counted(size, 'semitone');
  return `${semitones > 0 ? 'up' : 'down'} ${far}`;
};
