/** Says which notes have no place, where they stand in the tune, and what would make them fit. */
import type { Instrument } from '../instrument/instrument.ts';
import { placeName } from '../instrument/places.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { counted } from '../score/numbers.ts';
import { pitchName } from '../score/pitch.ts';
import type { Arrangement, FretWindow } from './arrangement.ts';
import type { Problem } from './problem.ts';
import { type Rules, windowIn } from './rules.ts';
import type { Found } from './search.ts';
import { groupBy, listSpots, placeOf, type Spot, spotOf } from './spots.ts';
import type { Strike } from './strikes.ts';
import { describeWaysOut, isSame, waysOut } from './ways-out.ts';

/** For what a tune is arranged. */
export interface Asked {
  readonly instrument: Instrument;
  readonly rules: Rules;
  /** Instruments for which it is arranged as well: those are no way out. */
  readonly beside: readonly Instrument[];
}

/** One error for each pitch that the instrument does not have, with every measure and beat. */
export const unplayableDiagnostics = (
  asked: Asked,
  all: readonly Strike[],
  unplayable: readonly Strike[],
): readonly Diagnostic[] =>
  groupBy(
    unplayable.map(strike => spotOf(strike)),
    spot => pitchName(spot.pitch),
  ).map(spots => ({
    severity: 'error',
    code: 'note-off-the-instrument',
    message: `${pitchName(spots[0].pitch)} cannot be played on ${asked.instrument.name}: ${listSpots(spots)}`,
    ...hintFor(asked, all, undefined, 'could be played'),
    place: placeOf(spots[0]),
  }));

/** One error for each pitch without a place in a window outside which nothing may lie. */
export const refusedDiagnostics = (
  asked: Asked,
  all: readonly Strike[],
  placeless: readonly Strike[],
): readonly Diagnostic[] => {
  const { rules } = asked;
  return groupBy(
    placeless.map(strike => spotOf(strike)),
    spot => `${pitchName(spot.pitch)} in ${where(rules, spot)}`,
  ).map(spots => ({
    severity: 'error',
    code: 'note-outside-window',
    message: `${pitchName(spots[0].pitch)} has no place in ${where(rules, spots[0])}: ${listSpots(spots)}`,
    ...hintFor(asked, strikesBeside(rules, all, spots[0]), windowIn(rules, spots[0].source.measure)),
    place: placeOf(spots[0]),
  }));
};

/** One error for each chord that no shape holds. */
export const shapelessDiagnostics = (
  instrument: Instrument,
  rules: Rules,
  shapeless: readonly Strike[],
): readonly Diagnostic[] =>
  shapeless.map(strike => {
    const names = strike.pitches.map(pitch => pitchName(pitch)).join(' ');
    const isChord = strike.pitches.length > 1;
    return {
      severity: 'error',
      code: 'no-shape',
      message: `${names} cannot be ${isChord ? 'held at once' : 'stopped'} on ${instrument.name} as the rules ask`,
      ...freed(rules, isChord ? ['play top notes only with --chords top'] : []),
      place: placeOf(spotOf(strike)),
    };
  });

/** A hint to give up some of the rules in force: what else would do, first. */
export const freed = (rules: Rules, first: readonly string[] = []): Pick<Diagnostic, 'hint'> => {
  const given = [
    rules.onePlace && '--one-place',
    rules.pins.length > 0 && '--place',
    rules.keepMarked && '--keep-marked',
    rules.open === 'never' && '--open never',
  ].filter(Boolean);
  const offers = [
    ...first,
    ...(rules.windows.length > 0 ? ['widen the window'] : []),
    ...(given.length > 0 ? [`leave out ${given.join(' or ')}`] : []),
  ];
  return offers.length > 0 ? { hint: offers.join(', or ') } : {};
};

/** Warnings for the notes that were played outside the window, notes for open strings that rescued. */
export const misfitDiagnostics = (problem: Problem, { misfits }: Arrangement): readonly Diagnostic[] => {
  const { hand, rules, strikes, beside } = problem;
  const asked: Asked = { instrument: hand.instrument, rules, beside };
  const groups = groupBy(misfits, misfit => {
    const { placement, pitch } = misfit;
    return [pitchName(pitch), placement.string, placement.fret, placement.fit, where(rules, misfit)].join();
  });
  return groups.map((spots): Diagnostic => {
    const [{ pitch, placement, source }] = spots;
    const start = `${pitchName(pitch)} has no place in ${where(rules, spots[0])}`;
    if (placement.fit === 'open') {
      return {
        severity: 'note',
        code: 'open-string-in-window',
        message: `${start}; played on ${placeName(placement)}: ${listSpots(spots)}`,
        place: placeOf(spots[0]),
      };
    }
    return {
      severity: 'warning',
      code: 'note-outside-window',
      message: `${start}; played on ${placeName(placement)}: ${listSpots(spots)}`,
      ...hintFor(asked, strikesBeside(rules, strikes, spots[0]), windowIn(rules, source.measure)),
      place: placeOf(spots[0]),
    };
  });
};

/** What else the rules did that the teacher should know. */
export const rulesDiagnostics = ({ rules, strikes }: Problem, { proven }: Found): readonly Diagnostic[] => {
  const marked = strikes.filter(({ marked }) =>
    marked.some(({ string, fret, finger }) => (string ?? fret ?? finger) !== undefined),
  ).length;
  const notes: Diagnostic[] = [];
  if (marked > 0 && !rules.keepMarked) {
    notes.push({
      severity: 'note',
      code: 'marks-ignored',
      message: `string, fret or fingering numbers that are in the file for ${counted(marked, 'note')} were not used`,
      hint: 'obey them with --keep-marked',
    });
  }
  if (!proven) {
    notes.push({
      severity: 'note',
      code: 'not-proven-cheapest',
      message: 'passages that return are fingered alike, but a cheaper way of doing so may exist',
      hint: '--free-repeats fingers each passage for itself, provably at least cost',
    });
  }
  return notes;
};

/** "frets 4-8", "frets 4-8 without open strings" */
const where = (rules: Rules, { source }: Spot): string => {
  const window = windowIn(rules, source.measure);
  return (
    (window ? `frets ${window.low}-${window.high}` : 'the frets of the neck') +
    (rules.open === 'never' ? ' without open strings' : '')
  );
};

/** The strikes under the same window. */
const strikesBeside = (rules: Rules, all: readonly Strike[], { source }: Spot): readonly Strike[] => {
  const window = windowIn(rules, source.measure);
  return all.filter(strike => windowIn(rules, strike.source.measure) === window);
};

const hintFor = (
  { instrument, rules, beside }: Asked,
  strikes: readonly Strike[],
  window: FretWindow | undefined,
  helped?: 'could be played',
) => {
  const sounds = strikes.flatMap(strike => strike.sounds);
  const ways = waysOut(instrument, sounds, window, rules.open === 'never' ? 'never' : 'may sound');
  const instruments = ways.instruments.filter(each => !beside.some(other => isSame(each, other)));
  const hint = describeWaysOut({ ...ways, instruments }, helped);
  return hint ? { hint } : {};
};
