/** From pitch to places and back. Pitches are MIDI numbers, frets count from the capo. */
import { midi, pitchName } from '../score/pitch.ts';
import type { Instrument, Place } from './instrument.ts';

/** The highest fret that can be played: the neck's last, counted from the capo. */
export const topFret = (instrument: Instrument): number => instrument.frets - instrument.capo;

/** What each open string sounds, capo included, string 1 first. */
export const openPitches = (instrument: Instrument): readonly number[] =>
  instrument.strings.map(pitch => midi(pitch) + instrument.capo);

/** The open strings without the capo, as stringings are told: "G4 C4 E4 A4", the highest string number first. */
export const stringNames = ({ strings }: Instrument, octave = true): string =>
  strings
    .map(pitch => pitchName(pitch, octave))
    .reverse()
    .join(' ');

/** "string 2 fret 7", "string 1 open". */
export const placeName = ({ string, fret }: Place): string =>
  fret === 0 ? `string ${string} open` : `string ${string} fret ${fret}`;

/** The MIDI number that sounds at a place. */
export const soundAt = (instrument: Instrument, place: Place): number => {
  const open = instrument.strings[place.string - 1];
  if (!open || place.fret < 0 || place.fret > topFret(instrument)) {
    throw new RangeError(`${instrument.name} has no ${placeName(place)}`);
  }
  return midi(open) + instrument.capo + place.fret;
};

/** Every place where a MIDI number sounds, by string number; empty if there is none. */
export const placesOf = (instrument: Instrument, sound: number): readonly Place[] =>
  openPitches(instrument).flatMap((open, index) => {
    const fret = sound - open;
    return fret >= 0 && fret <= topFret(instrument) ? [{ string: index + 1, fret }] : [];
  });

/** Lowest and highest MIDI number the instrument can sound. */
export const soundRange = (instrument: Instrument): { readonly low: number; readonly high: number } => {
  const open = openPitches(instrument);
  return { low: Math.min(...open), high: Math.max(...open) + topFret(instrument) };
};

/**
 * Strings that sound higher than their neighbour nearer the floor: the fourth of a re-entrant
 * ukulele. Players count them out for melodies unless they must.
 */
export const reentrantStrings = (instrument: Instrument): readonly number[] => {
  const open = openPitches(instrument);
  return open.flatMap((pitch, index) => (pitch > (open[index - 1] ?? Infinity) ? [index + 1] : []));
};
