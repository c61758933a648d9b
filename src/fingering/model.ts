/**
 * The cost model: all terms with the weights that a level asks for. Levels and campanella change
 * weights only; what is measured stays the same.
 *
 * `first` follows the finding that beginners' tablature writes the lowest place for 98 % of notes, where
 * a search for least movement agrees with it in 89 % (Hamberger et al. 2025, table 5): height on the neck
 * outweighs everything. `least` has the weights of `even`; its order of preference (hardest move first,
 * as in Hori & Sagayama 2016, then the sum) is the solver's business, see `least.ts`.
 */
import type { FingerMove, Grip, Touch } from './grip.ts';
import type { Hand } from './hand.ts';
import type { Rules } from './rules.ts';
import { FINGER_TERMS, GRIP_TERMS, HAND_TERMS } from './terms/index.ts';
import { type FingerTerm, type GripTerm, type HandTerm, type Term, toCost } from './terms/term.ts';

/** The cost terms that are charged. */
export interface CostModel {
  readonly gripTerms: readonly GripTerm[];
  readonly handTerms: readonly HandTerm[];
  readonly fingerTerms: readonly FingerTerm[];
}

/** Weights, by name of the term, that replace those of the table. */
type Weights = Readonly<Record<string, number>>;

const FIRST: Weights = {
  'height on the neck': 0.1,
  'open string up the neck': 0,
  // As dear, against ten times the height, as it is else.
  're-entrant string': 30,
};

const CAMPANELLA: Weights = { 'does not ring on': 3, 're-entrant string': 0, 'string crossing': 0 };

/** The terms under these rules: the level, and whether notes shall ring over each other, change the table. */
export const costModel = ({ level, campanella }: Pick<Rules, 'level' | 'campanella'>): CostModel => {
  const weights: Weights = { ...(level === 'first' ? FIRST : {}), ...(campanella ? CAMPANELLA : {}) };
  const reweigh = <T extends Term>(terms: readonly T[]): readonly T[] =>
    terms
      .map(term => ({ ...term, weight: weights[term.name] ?? term.weight }))
      .filter(term => term.weight !== 0);
  return {
    gripTerms: reweigh(GRIP_TERMS),
    handTerms: reweigh(HAND_TERMS),
    fingerTerms: reweigh(FINGER_TERMS),
  };
};

/** What holding a grip costs, thousandths of a point. */
export const gripCost = ({ gripTerms }: CostModel, grip: Grip, hand: Hand): number => {
  let cost = 0;
  for (const term of gripTerms) cost += toCost(term, term.measure(grip, hand));
  return cost;
};

/** What a shift costs the hand, thousandths of a point. */
export const handCost = (
  { handTerms }: CostModel,
  from: number,
  to: number,
  haste: number,
  hand: Hand,
): number => {
  let cost = 0;
  for (const term of handTerms) cost += toCost(term, term.measure(from, to, haste, hand));
  return cost;
};

/**
 * What a move from some touches to others costs the fingers, thousandths of a point. This is the
 * innermost loop of setting a tune up, so it counts by hand.
 */
export const fingerCost = (
  { fingerTerms }: CostModel,
  from: readonly Touch[],
  to: readonly Touch[],
  move: FingerMove,
  hand: Hand,
): number => {
  let cost = 0;
  for (let i = 0; i < from.length; i++) {
    for (let j = 0; j < to.length; j++) {
      for (let t = 0; t < fingerTerms.length; t++) {
        const term = fingerTerms[t]!;
        cost += toCost(term, term.measure(from[i]!, to[j]!, move, hand));
      }
    }
  }
  return cost;
};
