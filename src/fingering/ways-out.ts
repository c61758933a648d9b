/** What would make a tune fit that does not: another key, a wider window, another instrument. */
import { INSTRUMENTS } from '../instrument/catalogue.ts';
import type { Instrument } from '../instrument/instrument.ts';
import { openPitches, topFret } from '../instrument/places.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { movedName } from '../score/names.ts';
import type { FretWindow } from './arrangement.ts';
import type { Demand } from './demand.ts';
import { fits } from './fit.ts';
import type { Rules } from './rules.ts';
import type { Strike } from './strikes.ts';

/** What would help, whichever way. */
export interface WaysOut {
  /** Semitones up or down with which every note fits, nearest first; at most an octave. */
  readonly transpositions: readonly number[];
  /** The narrowest window around the given one with a place for every note, where there is one. */
  readonly window: FretWindow | undefined;
  /** Whether every note fits where there is a capo, once it is off. */
  readonly withoutCapo: boolean;
  /** Other instruments of the catalogue with a place for every note; window and capo kept. */
  readonly instruments: readonly Instrument[];
}

/**
 * Finds the ways out for a set of pitches (MIDI numbers) that do not all fit. Where open strings never
 * sound, none of the ways needs one.
 */
export const waysOut = (
  instrument: Instrument,
  sounds: Iterable<number>,
  window: FretWindow | undefined,
  open: 'may sound' | 'never' = 'may sound',
): WaysOut => {
  const pitches = [...new Set(sounds)];
  const lowest = open === 'never' ? 1 : 0;
  const holds = (each: Instrument, by = 0, { low, high } = window ?? { low: 0, high: topFret(each) }) =>
    fits(
      each,
      pitches.map(pitch => pitch + by),
      { low: Math.max(lowest, low), high },
    );
  const steps = Array.from({ length: 12 }, (_, index) => index + 1).flatMap(step => [step, -step]);
  const { capo } = instrument;
  return {
    transpositions: steps.filter(step => holds(instrument, step)),
    window: window && widen(window, lowest, topFret(instrument), wider => holds(instrument, 0, wider)),
    withoutCapo: capo > 0 && holds({ ...instrument, capo: 0 }),
    instruments: INSTRUMENTS.map(each => ({ ...each, capo })).filter(
      each => !isSame(each, instrument) && holds(each),
    ),
  };
};

/** Whether two instruments are one, by whatever name: that in use is no way out. */
const isSame = (a: Instrument, b: Instrument): boolean =>
  a.id === b.id || openPitches(a).join() === openPitches(b).join();

/** Of all windows that hold the given one and every note, the one with fewest frets, then the highest. */
const widen = (
  window: FretWindow,
  lowest: number,
  top: number,
  holds: (wider: FretWindow) => boolean,
): FretWindow | undefined => {
  let best: FretWindow | undefined;
  for (let low = window.low; low >= Math.min(lowest, window.low); low--) {
    for (let high = window.high; high <= top; high++) {
      if (best && high - low >= best.high - best.low) break;
      if (holds({ low, high })) best = { low, high };
    }
  }
  return best;
};

/**
 * The ways out in one sentence without a full stop; undefined where there is none. What is said to fit has a
 * place in the window; what can be played, somewhere on the neck. A tune that was `moved` by semitones already is
 * said to be moved as far as that takes it in all, which is what is to be asked for.
 */
export const describeWaysOut = (
  ways: WaysOut,
  helped: 'would fit' | 'could be played' = 'would fit',
  moved = 0,
): string | undefined => {
  const up = ways.transpositions.find(step => step > 0);
  const down = ways.transpositions.find(step => step < 0);
  const keys = [up, down].flatMap(step => (step === undefined ? [] : [moved + step]));
  const offers = [
    keys.length > 0 && keysName(keys, moved),
    ways.window && `in frets ${ways.window.low}-${ways.window.high}`,
    ways.withoutCapo && 'without the capo',
    ways.instruments.length > 0 && `on ${ways.instruments.map(each => each.id).join(', ')}`,
  ].filter(Boolean);
  return offers.length > 0 ? `every note ${helped} ${offers.join('; or ')}` : undefined;
};

/** "transposed up 2 semitones or down an octave"; `keys` are semitones from the key that the tune is written in. */
const keysName = (keys: readonly number[], moved: number): string => {
  const far = keys.filter(by => by !== 0).map(movedName);
  return [
    ...(keys.includes(0) ? ['in the key that it is written in'] : []),
    ...(far.length > 0 ? [`transposed ${far.join(' or ')}${moved === 0 ? '' : ' in all'}`] : []),
  ].join(' or ');
};

/** For what a tune is arranged. */
export interface FingeringAsked {
  readonly instrument: Instrument;
  readonly rules: Rules;
  /** Instruments for which it is arranged as well: those are no way out. */
  readonly beside: readonly Instrument[];
  /** Semitones by which it is moved from the key that it is written in. */
  readonly moved: number;
}

/** The ways out for all strikes together, as a hint; none where there is no way. */
export const hintFor = (
  { instrument, rules, beside, moved }: FingeringAsked,
  strikes: readonly Strike[],
  window: FretWindow | undefined,
  helped?: 'could be played',
): Pick<Diagnostic, 'hint'> => {
  const sounds = strikes.flatMap(strike => strike.sounds);
  const ways = waysOut(instrument, sounds, window, rules.open === 'never' ? 'never' : 'may sound');
  const instruments = ways.instruments.filter(each => !beside.some(other => isSame(each, other)));
  const hint = describeWaysOut({ ...ways, instruments }, helped, moved);
  return hint ? { hint } : {};
};

/** The same for the strikes under one window. */
export const hintAt = (
  asked: FingeringAsked,
  strikes: readonly Strike[],
  demands: readonly Demand[],
  window: FretWindow | undefined,
): Pick<Diagnostic, 'hint'> =>
  hintFor(
    asked,
    strikes.filter((_, k) => demands[k]!.window === window),
    window,
  );
