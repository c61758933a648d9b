/** What makes it impossible to finger a tune: each check throws a Refusal that lists every note it is about. */
import type { Instrument } from '../instrument/instrument.ts';
import { placesOf, topFret } from '../instrument/places.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { groupBy } from '../score/groups.ts';
import { measureRanges, stretchName } from '../score/moments.ts';
import { pitchName } from '../score/pitch.ts';
import type { Tune } from '../score/tune.ts';
import { fitPlaces } from './candidates.ts';
import type { Demand } from './demand.ts';
import type { Hand } from './hand.ts';
import type { Lattice } from './lattice.ts';
import { type Rules, windowName } from './rules.ts';
import { listSpots, placeOf, spotOf } from './spots.ts';
import type { Strike } from './strikes.ts';
import { type FingeringAsked, hintAt, hintFor } from './ways-out.ts';

/** Refuses windows that do not lie on the neck from end to end, or are upside down. */
export const checkWindows = (instrument: Instrument, { windows }: Rules): void => {
  const top = topFret(instrument);
  for (const { window } of windows) {
    const { low, high } = window;
    if (low <= high && low >= 0 && high <= top) continue;
    throw new Refusal({
      severity: 'error',
      code: 'window-off-the-neck',
      message: `frets ${low}-${high} are no window on ${instrument.name}`,
      hint:
        low > high
          ? `write the lower fret first: ${high}-${low}`
          : `the neck has frets 0 to ${top}${low >= 0 && low <= top ? `: write ${low}-${top}` : ''}`,
    });
  }
};

/** Refuses windows for measures that the tune does not have. */
export const checkMeasures = ({ measures: all }: Tune, { windows }: Rules): void => {
  const printed = [...new Set(all.map(({ number }) => number))].filter(each => /^\d/.test(each));
  const numbers = printed.map(each => Number.parseInt(each, 10));
  for (const { measures } of windows) {
    if (!measures || numbers.some(each => each >= measures.from && each <= measures.to)) continue;
    throw new Refusal({
      severity: 'error',
      code: 'window-without-measures',
      message: `there are no ${stretchName(String(measures.from), String(measures.to), '-')} for a window to hold in`,
      hint: printed.length > 0 ? `there are ${measureRanges(printed)}` : 'none of its measures has a number',
    });
  }
};

/** Refuses pitches that the instrument does not have: one error for each. */
export const checkRange = (asked: FingeringAsked, strikes: readonly Strike[]): void => {
  const { instrument } = asked;
  const off = strikes.filter(({ sounds }) => sounds.some(sound => placesOf(instrument, sound).length === 0));
  if (off.length === 0) return;
  const groups = groupBy(
    off.map(strike => spotOf(strike)),
    ({ pitch }) => pitchName(pitch),
  );
  throw new Refusal(
    ...groups.map(
      (spots): Diagnostic => ({
        severity: 'error',
        code: 'note-off-the-instrument',
        message: `${pitchName(spots[0].pitch)} cannot be played on ${instrument.name}: ${listSpots(spots)}`,
        ...hintFor(asked, strikes, undefined, 'could be played'),
        place: placeOf(spots[0]),
      }),
    ),
  );
};

/** Refuses notes to which the rules leave no place: one error for each pitch and window. */
export const checkPlaces = (
  hand: Hand,
  asked: FingeringAsked,
  strikes: readonly Strike[],
  demands: readonly Demand[],
): void => {
  const { rules } = asked;
  const hopeless = new Set(
    [...new Set(demands)].filter(demand =>
      demand.sounds.some((_, index) => fitPlaces(hand, demand, index, rules).length === 0),
    ),
  );
  const placeless = strikes.flatMap((strike, k) =>
    hopeless.has(demands[k]!) ? [{ ...spotOf(strike), window: demands[k]!.window }] : [],
  );
  if (placeless.length === 0) return;
  const groups = groupBy(
    placeless,
    ({ pitch, window }) => `${pitchName(pitch)} in ${windowName(rules, window)}`,
  );
  throw new Refusal(
    ...groups.map((spots): Diagnostic => {
      const [{ pitch, window }] = spots;
      return {
        severity: 'error',
        code: 'note-outside-window',
        message: `${pitchName(pitch)} has no place in ${windowName(rules, window)}: ${listSpots(spots)}`,
        ...hintAt(asked, strikes, demands, window),
        place: placeOf(spots[0]),
      };
    }),
  );
};

/** Refuses chords that no shape holds, and notes that the hand cannot stop as they are fixed. */
export const checkShapes = (
  { instrument, rules }: FingeringAsked,
  strikes: readonly Strike[],
  { layers }: Lattice,
): void => {
  const shapeless = strikes.filter((_, k) => layers[k]!.grips.length === 0);
  if (shapeless.length === 0) return;
  throw new Refusal(
    ...shapeless.map((strike): Diagnostic => {
      const names = strike.pitches.map(pitch => pitchName(pitch)).join(' ');
      const isChord = strike.pitches.length > 1;
      return {
        severity: 'error',
        code: 'no-shape',
        message: `${names} cannot be ${isChord ? 'held at once' : 'stopped'} on ${instrument.name} as the rules ask`,
        ...freed(rules, isChord ? ['play top notes only with --chords top'] : []),
        place: placeOf(spotOf(strike)),
      };
    }),
  );
};

/** Rules that no fingering satisfies together. */
export const contradiction = (rules: Rules): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'rules-contradict',
    message: 'no fingering satisfies all the rules together',
    ...freed(rules),
  });

/** A hint to give up some of the rules in force: what else would do, first. */
const freed = (rules: Rules, first: readonly string[] = []): Pick<Diagnostic, 'hint'> => {
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
