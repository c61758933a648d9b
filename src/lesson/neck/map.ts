/** A map of the fingerboard: the places that a tune uses, and where else its pitches lie. */
import type { Arrangement, Finger, FretWindow } from '../../fingering/arrangement.ts';
import type { Instrument, Place } from '../../instrument/instrument.ts';
import { placesOf, topFret } from '../../instrument/places.ts';
import { midi, type Pitch, type Step } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';

/** Where a tune lies on the neck. */
export interface NeckMap {
  readonly instrument: Instrument;
  readonly windows: readonly FretWindow[];
  /** Semitones by which the tune was moved from the key of its file. */
  readonly transposition: number;
  /** By string, then by fret. */
  readonly places: readonly NeckPlace[];
  /** The highest fret that the map has to show. */
  readonly lastFret: number;
}

/** Used, or another place of a pitch that is used. */
export type NeckPlace = Place & {
  /** As the tune spells it first. */
  readonly pitch: Pitch;
  /** The note that the scale is named after. */
  readonly tonic: boolean;
} & (
    | {
        readonly kind: 'used';
        /** The finger that stops it most often; 0 on an open string. */
        readonly finger: Finger;
        /** How often it is struck. */
        readonly count: number;
      }
    | { readonly kind: 'elsewhere' }
  );

/** A map that shows less of the neck than this looks like another instrument. */
const LEAST_FRETS = 12;

/** Beyond the last place that is used so many frets are shown. */
const BEYOND = 1;

/** The map of an arranged tune; `tonic` is the note that a scale is named after. */
export const neckMap = (
  tune: Tune,
  { instrument, windows, placements }: Arrangement,
  tonic?: { readonly step: Step; readonly alter: number },
): NeckMap => {
  const strikes = new Map<string, Strikes>();
  const pitches = new Map<number, Pitch>();
  for (const { pitch, id } of struckHeads(tune)) {
    const { string, fret, finger } = placements.get(id)!;
    const key = `${string}:${fret}`;
    const before = strikes.get(key) ?? { string, fret, pitch, fingers: [0, 0, 0, 0, 0] };
    strikes.set(key, { ...before, fingers: before.fingers.map((n, f) => (f === finger ? n + 1 : n)) });
    if (!pitches.has(midi(pitch))) pitches.set(midi(pitch), pitch);
  }
  const isTonic = ({ step, alter }: Pitch): boolean => step === tonic?.step && alter === tonic.alter;
  const used = [...strikes.values()].map(({ string, fret, pitch, fingers }): NeckPlace => {
    const count = fingers.reduce((sum, n) => sum + n, 0);
    const finger = fingers.indexOf(Math.max(...fingers)) as Finger;
    return { kind: 'used', string, fret, pitch, finger, count, tonic: isTonic(pitch) };
  });
  const elsewhere = [...pitches].flatMap(([sound, pitch]) =>
    placesOf(instrument, sound)
      .filter(({ string, fret }) => !strikes.has(`${string}:${fret}`))
      .map((place): NeckPlace => ({ kind: 'elsewhere', ...place, pitch, tonic: isTonic(pitch) })),
  );
  // Several passages may be played in one window.
  const shown = [...new Map(windows.map(({ window }) => [`${window.low}-${window.high}`, window])).values()];
  return {
    instrument,
    windows: shown,
    transposition: tune.transposition ?? 0,
    places: [...used, ...elsewhere].sort((a, b) => a.string - b.string || a.fret - b.fret),
    lastFret: lastFret(instrument, used, shown),
  };
};

interface Strikes extends Place {
  readonly pitch: Pitch;
  /** How often each finger strikes, at its number. */
  readonly fingers: readonly number[];
}

/** Heads that are struck: those that a tie leads to are not. */
const struckHeads = ({ measures }: Tune) =>
  measures
    .flatMap(({ events }) => events)
    .flatMap(event => (event.kind === 'note' ? event.heads : []))
    .filter(({ tieFrom }) => tieFrom === undefined);

/** To the end of the neck where not much of it would be left out. */
const lastFret = (
  instrument: Instrument,
  used: readonly NeckPlace[],
  windows: readonly FretWindow[],
): number => {
  const top = topFret(instrument);
  const needed = Math.max(
    LEAST_FRETS,
    ...used.map(({ fret }) => fret + BEYOND),
    ...windows.map(({ high }) => high + BEYOND),
  );
  return needed >= top - 2 ? top : needed;
};

/** "frets 2–6 and 5–9", "fret 5"; empty for no window. */
export const windowsName = ({ windows }: Pick<NeckMap, 'windows'>, dash = '–'): string => {
  if (windows.length === 0) return '';
  const spans = windows.map(({ low, high }) => (low === high ? `${low}` : `${low}${dash}${high}`));
  const isOneFret = windows.length === 1 && windows[0]!.low === windows[0]!.high;
  const last = spans.slice(-2).join(' and ');
  return `${isOneFret ? 'fret' : 'frets'} ${[...spans.slice(0, -2), last].join(', ')}`;
};
