/** What would make a tune fit that does not: another key, a wider window, another instrument. */
import { INSTRUMENTS } from '../instrument/catalogue.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { openPitches } from '../instrument/places.ts';
import { movedName } from '../score/names.ts';
import type { FretWindow } from './arrangement.ts';
import { fits } from './fit.ts';

export interface WaysOut {
  /** Semitones up or down with which every note fits, nearest first; at most an octave. */
  readonly transpositions: readonly number[];
  /** The narrowest window around the given one with a place for every note, where there is one. */
  readonly window: FretWindow | undefined;
  /** Instruments of the catalogue with a place for every note, window kept. */
  readonly instruments: readonly Instrument[];
}

/** Finds the ways out for a set of pitches (MIDI numbers) that do not all fit. */
export const waysOut = (
  instrument: Instrument,
  sounds: Iterable<number>,
  window: FretWindow | undefined,
): WaysOut => {
  const pitches = [...new Set(sounds)];
  const steps = Array.from({ length: 12 }, (_, index) => index + 1).flatMap(step => [step, -step]);
  return {
    transpositions: steps.filter(step =>
      fits(
        instrument,
        pitches.map(pitch => pitch + step),
        window,
      ),
    ),
    window: window && widen(instrument, pitches, window),
    instruments: INSTRUMENTS.filter(each => !sameStringing(each, instrument) && fits(each, pitches, window)),
  };
};

const sameStringing = (a: Instrument, b: Instrument): boolean =>
  openPitches(a).join() === openPitches(b).join();

/** Of all windows that hold the given one and fit, the one with fewest frets, then the highest. */
const widen = (
  instrument: Instrument,
  pitches: readonly number[],
  window: FretWindow,
): FretWindow | undefined => {
  const top = instrument.frets - instrument.capo;
  let best: FretWindow | undefined;
  for (let low = window.low; low >= 0; low--) {
    for (let high = window.high; high <= top; high++) {
      if (best && high - low >= best.high - best.low) break;
      if (fits(instrument, pitches, { low, high })) best = { low, high };
    }
  }
  return best;
};

/** The ways out in one sentence without a full stop; undefined where there is none. */
export const describeWaysOut = (ways: WaysOut): string | undefined => {
  const up = ways.transpositions.find(step => step > 0);
  const down = ways.transpositions.find(step => step < 0);
  const keys = [up && movedName(up), down && movedName(down)].filter(Boolean);
  const offers = [
    keys.length > 0 && `transposed ${keys.join(' or ')}`,
    ways.window && `in frets ${ways.window.low}-${ways.window.high}`,
    ways.instruments.length > 0 && `on ${ways.instruments.map(each => each.id).join(', ')}`,
  ].filter(Boolean);
  return offers.length > 0 ? `every note would fit ${offers.join('; or ')}` : undefined;
};
