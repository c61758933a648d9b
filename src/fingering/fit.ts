/** Where on an instrument a set of pitches fits: answered by arithmetic, without solving. */
import type { Instrument } from '../instrument/instrument.ts';
import { placesOf, topFret } from '../instrument/places.ts';
import type { FretWindow } from './arrangement.ts';

/** Whether every pitch (MIDI number) has a place, inside the window if there is one. */
export const fits = (
  instrument: Instrument,
  sounds: readonly number[],
  window: FretWindow | undefined,
): boolean =>
  sounds.every(sound =>
    placesOf(instrument, sound).some(({ fret }) => !window || (fret >= window.low && fret <= window.high)),
  );

/** The windows of `width` frets, up the neck from fret 1, in which every pitch has a stopped place. */
export const windowsThatFit = (
  instrument: Instrument,
  sounds: readonly number[],
  width: number,
): readonly FretWindow[] => {
  const lows = Array.from({ length: Math.max(0, topFret(instrument) - width + 1) }, (_, index) => index + 1);
  return lows.map(low => ({ low, high: low + width - 1 })).filter(window => fits(instrument, sounds, window));
};

/** The fewest frets that hold every pitch without open strings; undefined where none do. */
export const narrowestWindow = (
  instrument: Instrument,
  sounds: readonly number[],
): FretWindow | undefined => {
  for (let width = 1; width <= topFret(instrument); width++) {
    const [window] = windowsThatFit(instrument, sounds, width);
    if (window) return window;
  }
  return undefined;
};
