/**
 * The frets that carry markers (common practice, from memory): the 3rd, 5th, 7th, then on guitars and
 * basses the 9th, on ukuleles and mandolins the 10th; two at the octave; and on likewise above it.
 */
import type { Instrument } from '../../instrument/instrument.ts';

/** Shorter scales, mm, are marked as ukuleles are. */
const SHORT_SCALE = 560;

const LONG = [3, 5, 7, 9] as const;
const SHORT = [3, 5, 7, 10] as const;

/** How many markers the fret of the bare neck has: 0, 1 or 2. */
export const markersAt = ({ scaleLength }: Instrument, fret: number): 0 | 1 | 2 => {
  if (fret <= 0) return 0;
  if (fret % 12 === 0) return 2;
  const marked: readonly number[] = scaleLength < SHORT_SCALE ? SHORT : LONG;
  return marked.includes(fret % 12) ? 1 : 0;
};
