/**
 * The cost model: all terms with the weights that a level asks for. Levels and campanella change
 * weights only; what is measured stays the same.
 *
 * `first` follows the finding that beginners' tablature writes the lowest place for 98 % of notes, where
 * a search for least movement agrees with it in 89 % (Hamberger et al. 2025, table 5): height on the neck
 * outweighs everything. `least` has the weights of `even`; its order of preference (hardest move first,
 * as in Hori & Sagayama 2016, then the sum) is the solver's business, see `least.ts`.
 */
import type { Grip, MoveContext } from './grip.ts';
import type { Hand } from './hand.ts';
import type { Rules } from './rules.ts';
import { GRIP_TERMS, MOVE_TERMS } from './terms/index.ts';
import type { GripTerm, MoveTerm } from './terms/term.ts';
import { toCost } from './terms/term.ts';

export interface CostModel {
  readonly gripTerms: readonly GripTerm[];
  readonly moveTerms: readonly MoveTerm[];
}

/** Weights, by name of the term, that replace those of the table. */
type Weights = Readonly<Record<string, number>>;

const FIRST: Weights = { 'height on the neck': 0.1, 'open string up the neck': 0 };

const CAMPANELLA: Weights = { 'does not ring on': 3, 're-entrant string': 0, 'string crossing': 0 };

export const costModel = ({ level, campanella }: Pick<Rules, 'level' | 'campanella'>): CostModel => {
  const weights: Weights = { ...(level === 'first' ? FIRST : {}), ...(campanella ? CAMPANELLA : {}) };
  const reweigh = <T extends GripTerm | MoveTerm>(term: T): T => ({
    ...term,
    weight: weights[term.name] ?? term.weight,
  });
  return {
    gripTerms: GRIP_TERMS.map(reweigh).filter(term => term.weight !== 0),
    moveTerms: MOVE_TERMS.map(reweigh).filter(term => term.weight !== 0),
  };
};

/** What holding a grip costs, thousandths of a point. */
export const gripCost = ({ gripTerms }: CostModel, grip: Grip, hand: Hand): number => {
  let cost = 0;
  for (const term of gripTerms) cost += toCost(term, term.measure(grip, hand));
  return cost;
};

/** What a move costs, thousandths of a point. */
export const moveCost = (
  { moveTerms }: CostModel,
  from: Grip,
  to: Grip,
  hand: Hand,
  context: MoveContext,
): number => {
  let cost = 0;
  for (const term of moveTerms) cost += toCost(term, term.measure(from, to, hand, context));
  return cost;
};
