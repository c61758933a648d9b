/** The fewest frets that hold a whole tune on an instrument, or what stands in the way; and both in words. */
import type { Instrument } from '../instrument/instrument.ts';
import { placesOf, topFret } from '../instrument/places.ts';
import { shortList } from '../score/numbers.ts';
import { midi, type Pitch, pitchName } from '../score/pitch.ts';
import type { FretWindow } from './arrangement.ts';
import { fits, narrowestWindow } from './fit.ts';

/** How a tune fits an instrument as a whole. */
export interface WholeFit {
  /** Without open strings if that can be, else from fret 0 on; undefined where notes are missing. */
  readonly narrowest: FretWindow | undefined;
  /** Notes that only open strings sound, from the lowest up. */
  readonly openOnly: readonly Pitch[];
  /** Notes that the instrument does not have, from the lowest up. */
  readonly missing: readonly Pitch[];
}

/** Where all pitches of a tune fit at once. */
export const wholeFit = (instrument: Instrument, pitches: readonly Pitch[]): WholeFit => {
  const distinct = [...new Map(pitches.map(pitch => [midi(pitch), pitch]))].sort(([a], [b]) => a - b);
  const without = (has: (fret: number) => boolean): readonly Pitch[] =>
    distinct
      .filter(([sound]) => !placesOf(instrument, sound).some(({ fret }) => has(fret)))
      .map(([, pitch]) => pitch);
  const missing = without(() => true);
  if (missing.length > 0) return { narrowest: undefined, openOnly: [], missing };
  const sounds = distinct.map(([sound]) => sound);
  const openOnly = without(fret => fret > 0);
  if (openOnly.length === 0) return { narrowest: narrowestWindow(instrument, sounds), openOnly, missing };
  let high = 0;
  while (high < topFret(instrument) && !fits(instrument, sounds, { low: 0, high })) high += 1;
  return { narrowest: { low: 0, high }, openOnly, missing };
};

/** The same for other programs, notes by name. */
export const wholeFitData = ({ narrowest, openOnly, missing }: WholeFit) => ({
  narrowest,
  openOnly: openOnly.map(pitch => pitchName(pitch)),
  missing: missing.map(pitch => pitchName(pitch)),
});

/** "every note fits in frets 3-9"; "every note fits in frets 0-7, C4 on an open string only"; "G3 cannot be played". */
export const wholeFitText = ({ narrowest, openOnly, missing }: WholeFit): string => {
  const names = (pitches: readonly Pitch[]): string => shortList(pitches.map(pitch => pitchName(pitch)));
  if (missing.length > 0) return `${names(missing)} cannot be played`;
  if (!narrowest) return 'no notes';
  const where = `every note fits in frets ${narrowest.low}-${narrowest.high}`;
  if (openOnly.length === 0) return where;
  return `${where}, ${names(openOnly)} on ${openOnly.length > 1 ? 'open strings' : 'an open string'} only`;
};
