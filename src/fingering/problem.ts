/** A tune, an instrument and rules, made into what the solver solves; and its solution. */
import type { Instrument } from '../instrument/instrument.ts';
import type { Tune } from '../score/tune.ts';
import { gripsFor, restPositions } from './candidates.ts';
import { type Demand, demandsOf, type Targets } from './demand.ts';
import type { MoveContext } from './grip.ts';
import { type Hand, handOn } from './hand.ts';
import { type Lattice, LatticeBuilder } from './lattice.ts';
import { withoutHarderSteps } from './least.ts';
import { type CostModel, costModel } from './model.ts';
import {
  checkMeasures,
  checkPlaces,
  checkRange,
  checkShapes,
  checkWindows,
  contradiction,
} from './refusals.ts';
import { endingWith, type Rules } from './rules.ts';
import { type Found, search } from './search.ts';
import { solve } from './solver.ts';
import { type Strike, strikesOf, timingBefore } from './strikes.ts';
import { onePlaceTies, repeatTies, type Tie } from './ties.ts';
import { hasteOf } from './time.ts';
import type { FingeringAsked } from './ways-out.ts';

/** What the solver works on. Its form is no promise: pass it on to `explain`, `difficultyOf` or `cheapest`. */
export interface Problem {
  readonly hand: Hand;
  readonly model: CostModel;
  /** For what the tune is arranged, as ways out need to know it. */
  readonly asked: FingeringAsked;
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
 * can; instruments of other editions, `beside`, are not offered as ways out. Throws a Refusal that lists
 * every note that has no place, or no place that the rules allow.
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
  const ending = endingWith(
    rules,
    tune.measures.map(({ number }) => number),
  );
  const asked = { instrument, rules: ending, beside, moved: tune.transposition ?? 0 };
  checkRange(asked, strikes);
  const demands = demandsOf(hand, strikes, rules, targets);
  checkPlaces(hand, asked, strikes, demands);
  const model = costModel(rules);
  const contexts = strikes.slice(1).map((strike, k) => ({
    ...hasteOf(timingBefore(tune.division, strikes[k]!, strike)),
    slurred: strike.slurred,
  }));
  const whole = buildLattice(hand, model, rules, demands, contexts);
  checkShapes(asked, strikes, whole);
  const starts = new Map(tune.measures.map(({ index, at }) => [index, at]));
  const ties = [
    ...(rules.onePlace ? onePlaceTies(hand, strikes) : []),
    ...(rules.repeats === 'same' ? repeatTies(strikes, demands, starts) : []),
  ];
  const easiest =
    rules.level === 'least' ? withoutHarderSteps(whole, ties) : { lattice: whole, proven: true };
  if (!easiest) throw contradiction(rules);
  const { lattice, proven: easiestProven } = easiest;
  return { hand, model, asked, strikes, struckBy, demands, contexts, lattice, easiestProven, ties };
};

/** The cheapest fingering by the level of the rules. Throws a Refusal where the rules contradict each other. */
export const solveProblem = ({ asked, lattice, ties, easiestProven }: Problem): Found => {
  const found = search(lattice, ties, solve);
  if (found) return { ...found, proven: found.proven && easiestProven };
  throw contradiction(asked.rules);
};

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
