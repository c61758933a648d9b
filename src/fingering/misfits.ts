/** Says which notes have no place, where they stand in the tune, and what would make them fit. */
import type { Instrument } from '../instrument/instrument.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Source } from '../score/model.ts';
import { midi, type Pitch, pitchName } from '../score/pitch.ts';
import type { FretWindow, Misfit } from './arrangement.ts';
import type { Rules } from './rules.ts';
import type { Strike } from './strikes.ts';
import { describeWaysOut, waysOut } from './ways-out.ts';

/** One error for each pitch that the instrument does not have, with every measure and beat. */
export const unplayableDiagnostics = (
  instrument: Instrument,
  all: readonly Strike[],
  unplayable: readonly Strike[],
): readonly Diagnostic[] => {
  const hint = hintFor(instrument, all, undefined);
  return groupByPitch(unplayable.map(spotOf)).map(spots => ({
    severity: 'error',
    code: 'note-off-the-instrument',
    message: `${pitchName(spots[0].pitch)} cannot be played on ${instrument.name}: ${listSpots(spots)}`,
    ...hint,
    place: placeOf(spots[0]),
  }));
};

/** One error for each pitch without a place in a window outside which nothing may lie. */
export const refusedDiagnostics = (
  instrument: Instrument,
  rules: Rules,
  all: readonly Strike[],
  placeless: readonly Strike[],
): readonly Diagnostic[] => {
  const hint = hintFor(instrument, all, rules.window);
  return groupByPitch(placeless.map(spotOf)).map(spots => ({
    severity: 'error',
    code: 'note-outside-window',
    message: `${pitchName(spots[0].pitch)} has no place in ${whereFrom(rules)}: ${listSpots(spots)}`,
    ...hint,
    place: placeOf(spots[0]),
  }));
};

/** Warnings for the notes that were played outside the window, a note for open strings that rescued. */
export const misfitDiagnostics = (
  instrument: Instrument,
  rules: Rules,
  all: readonly Strike[],
  outside: readonly Misfit[],
  rescued: readonly Misfit[],
): readonly Diagnostic[] => {
  if (outside.length + rescued.length === 0) return [];
  const hint = hintFor(instrument, all, rules.window);
  const warnings = groupByPlace(outside).map(
    (spots): Diagnostic => ({
      severity: 'warning',
      code: 'note-outside-window',
      message: `${pitchName(spots[0].pitch)} has no place in ${whereFrom(rules)}; played on string ${spots[0].placement.string} at fret ${spots[0].placement.fret}: ${listSpots(spots)}`,
      ...hint,
      place: placeOf(spots[0]),
    }),
  );
  const notes = groupByPlace(rescued).map(
    (spots): Diagnostic => ({
      severity: 'note',
      code: 'open-string-in-window',
      message: `${pitchName(spots[0].pitch)} has no place in ${whereFrom(rules)}; the open string ${spots[0].placement.string} sounds it: ${listSpots(spots)}`,
      place: placeOf(spots[0]),
    }),
  );
  return [...warnings, ...notes];
};

interface Spot {
  readonly pitch: Pitch;
  readonly source: Source;
  readonly beat: number;
}

type Group<T> = readonly [T, ...T[]];

const spotOf = (strike: Strike): Spot => ({
  pitch: strike.pitches[0]!,
  source: strike.source,
  beat: strike.beat,
});

const placeOf = ({ source, beat }: Spot) => ({ ...source, beat });

const groupBy = <T>(items: readonly T[], key: (item: T) => string): readonly Group<T>[] => {
  const groups = new Map<string, [T, ...T[]]>();
  for (const item of items) {
    const group = groups.get(key(item));
    if (group) group.push(item);
    else groups.set(key(item), [item]);
  }
  return [...groups.values()];
};

const groupByPitch = (spots: readonly Spot[]): readonly Group<Spot>[] =>
  groupBy(spots, spot => pitchName(spot.pitch));

const groupByPlace = (misfits: readonly Misfit[]): readonly Group<Misfit>[] =>
  groupBy(misfits, ({ pitch, placement }) => `${pitchName(pitch)},${placement.string},${placement.fret}`);

/** "measure 3 beat 1, beat 2.5; measure 7 beat 4" */
const listSpots = (spots: readonly Spot[]): string =>
  groupBy(spots, spot => spot.source.measure)
    .map(
      group =>
        `measure ${group[0].source.measure} ${group.map(({ beat }) => `beat ${formatBeat(beat)}`).join(', ')}`,
    )
    .join('; ');

const formatBeat = (beat: number): string => String(Math.round(beat * 100) / 100);

/** "frets 4-8", "frets 4-8 without open strings" */
const whereFrom = ({ window, open }: Rules): string =>
  (window ? `frets ${window.low}-${window.high}` : 'the frets of the neck') +
  (open === 'never' ? ' without open strings' : '');

const hintFor = (instrument: Instrument, all: readonly Strike[], window: FretWindow | undefined) => {
  const sounds = all.flatMap(strike => strike.pitches.map(midi));
  const hint = describeWaysOut(waysOut(instrument, sounds, window));
  return hint ? { hint } : {};
};
