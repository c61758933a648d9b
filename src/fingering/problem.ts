/** A tune, an instrument and rules, made into what the solver solves; and its solution. */
import type { Instrument } from '../instrument/instrument.ts';
import { placesOf, topFret } from '../instrument/places.ts';
import { Refusal } from '../score/diagnostic.ts';
import { measureRanges, stretchName } from '../score/moments.ts';
import type { Tune } from '../score/tune.ts';
import { fitPlaces, gripsFor, restPositions } from './candidates.ts';
import { type Demand, demandsOf, type Targets } from './demand.ts';
import type { MoveContext } from './grip.ts';
import { type Hand, handOn } from './hand.ts';
import { type Lattice, LatticeBuilder } from './lattice.ts';
import { withoutHarderSteps } from './least.ts';
import {
  type Asked,
  freed,
  refusedDiagnostics,
  shapelessDiagnostics,
  unplayableDiagnostics,
} from './misfits.ts';
import { type CostModel, costModel } from './model.ts';
import type { Rules } from './rules.ts';
import { type Found, search } from './search.ts';
import { solve } from './solver.ts';
import { type Strike, strikesOf, timingBefore } from './strikes.ts';
import { onePlaceTies, repeatTies, type Tie } from './ties.ts';
import { hasteOf } from './time.ts';

/** What the solver works on. Its form is no promise: pass it on to `explain`, `difficultyOf` or `cheapest`. */
export interface Problem {
  readonly hand: Hand;
  readonly model: CostModel;
  readonly rules: Rules;
  /** Instruments for which the tune is arranged as well. */
  readonly beside: readonly Instrument[];
  readonly strikes: readonly Strike[];
  /** For every tied-to head, the head that was struck. */
  readonly struckBy: ReadonlyMap<number, number>;
  readonly demands: readonly Demand[];
  /** contexts[k] is the move from strike k to strike k + 1. */
  readonly contexts: readonly MoveContext[];
  /** At level `least` without the steps that need not be taken. */
  readonly lattice: Lattice;
  /** False where that was cut off: steps that are easier yet may do. True at other levels. */
  readonly easiestProven: boolean;
  readonly ties: readonly Tie[];
}

/** A problem with its best fingering. */
export interface Solved {
  readonly problem: Problem;
  readonly found: Found;
}

/**
 * Sets a problem up. With `targets` the fingering shall agree with another edition's places where it
 * can; instruments of other editions, `beside`, are not offered as ways out. Throws a Refusal that lists every note
 * that has no place, or no place that the rules allow.
 */
export const problemOf = (
  tune: Tune,
  instrument: Instrument,
  rules: Rules,
  targets?: Targets,
  beside: readonly Instrument[] = [],
): Problem => {
  checkWindows(instrument, rules);
  checkMeasures(tune, rules);
  const hand = handOn(instrument, rules.hand);
  const { strikes, struckBy } = strikesOf(tune);
  checkRange({ instrument, rules, beside }, strikes);
  const demands = demandsOf(hand, strikes, rules, targets);
  checkPlaces(hand, { instrument, rules, beside }, strikes, demands);
  const model = costModel(rules);
  const contexts = strikes.slice(1).map((strike, k) => ({
    ...hasteOf(timingBefore(tune.division, strikes[k]!, strike)),
    slurred: strike.slurred,
  }));
  const whole = buildLattice(hand, model, rules, demands, contexts);
  checkShapes(hand, rules, strikes, whole);
  const starts = new Map(tune.measures.map(({ index, at }) => [index, at]));
  const ties = [
    ...(rules.onePlace ? onePlaceTies(hand, strikes) : []),
    ...(rules.repeats === 'same' ? repeatTies(strikes, demands, starts) : []),
  ];
  const easiest =
    rules.level === 'least' ? withoutHarderSteps(whole, ties) : { lattice: whole, proven: true };
  if (!easiest) throw contradiction(rules);
  const { lattice, proven: easiestProven } = easiest;
  return { hand, model, rules, beside, strikes, struckBy, demands, contexts, lattice, easiestProven, ties };
};

/** The cheapest fingering by the level of the rules. Throws a Refusal where the rules contradict each other. */
export const solveProblem = ({ rules, lattice, ties, easiestProven }: Problem): Found => {
  const found = search(lattice, ties, solve);
  if (found) return { ...found, proven: found.proven && easiestProven };
  throw contradiction(rules);
};

const contradiction = (rules: Rules) =>
  new Refusal({
    severity: 'error',
    code: 'rules-contradict',
    message: 'no fingering satisfies all the rules together',
    ...freed(rules),
  });

const buildLattice = (
  hand: Hand,
  model: CostModel,
  rules: Rules,
  demands: readonly Demand[],
  contexts: readonly MoveContext[],
): Lattice => {
  const build = new LatticeBuilder(hand, model);
  const rest = restPositions(hand, new Set(demands), rules);
  const layers = demands.map(demand => build.layer(demand, each => gripsFor(hand, each, rules, rest)));
  const moves = contexts.map((context, k) => build.moves(layers[k]!, layers[k + 1]!, context));
  return { layers, moves };
};

/** Refuses windows that do not lie on the neck from end to end, or are upside down. */
const checkWindows = (instrument: Instrument, { windows }: Rules): void => {
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
const checkMeasures = ({ measures: all }: Tune, { windows }: Rules): void => {
  const printed = [...new Set(all.map(({ number }) => number))].filter(each => /^\d/.test(each));
  const numbers = printed.map(each => Number.parseInt(each, 10));
  for (const { measures } of windows) {
    if (!measures || numbers.some(each => each >= measures.from && each <= measures.to)) continue;
    throw new Refusal({
      severity: 'error',
      code: 'window-without-measures',
      message: `there are no ${stretchName(String(measures.from), String(measures.to), '-')} for a window to hold in`,
      hint: `there are ${measureRanges(printed)}`,
    });
  }
};

const checkRange = (asked: Asked, strikes: readonly Strike[]): void => {
  const { instrument } = asked;
  const off = strikes.filter(({ sounds }) => sounds.some(sound => placesOf(instrument, sound).length === 0));
  if (off.length > 0) throw new Refusal(...unplayableDiagnostics(asked, strikes, off));
};

const checkPlaces = (
  hand: Hand,
  asked: Asked,
  strikes: readonly Strike[],
  demands: readonly Demand[],
): void => {
  const hopeless = new Set(
    [...new Set(demands)].filter(demand =>
      demand.sounds.some((_, index) => fitPlaces(hand, demand, index, asked.rules).length === 0),
    ),
  );
  const placeless = strikes.filter((_, k) => hopeless.has(demands[k]!));
  if (placeless.length > 0) throw new Refusal(...refusedDiagnostics(asked, strikes, placeless));
};

/** Refuses chords that no shape holds, and notes that the hand cannot stop as they are fixed. */
const checkShapes = (hand: Hand, rules: Rules, strikes: readonly Strike[], { layers }: Lattice): void => {
  const shapeless = strikes.filter((_, k) => layers[k]!.grips.length === 0);
  if (shapeless.length > 0) throw new Refusal(...shapelessDiagnostics(hand.instrument, rules, shapeless));
};
