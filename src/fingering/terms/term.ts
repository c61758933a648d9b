/** The shape of a cost term. Each term is one record in one file; `index.ts` is the table of all. */
import type { Grip, MoveContext } from '../grip.ts';
import type { Hand } from '../hand.ts';

interface TermBase {
  /** What explanations call it. */
  readonly name: string;
  /** What `measure` counts. */
  readonly unit: 'mm' | 'frets' | 'strings' | 'times' | 'notes' | 'fingers';
  /** Points for each unit. One point is about the effort of shifting by two frets in mid-neck. */
  readonly weight: number;
  /** Where the term and its weight come from. */
  readonly source: string;
}

/** What holding a grip costs, whatever came before. */
export interface GripTerm extends TermBase {
  readonly kind: 'grip';
  readonly measure: (grip: Grip, hand: Hand) => number;
}

/** What moving from one grip to the next costs. */
export interface MoveTerm extends TermBase {
  readonly kind: 'move';
  readonly measure: (from: Grip, to: Grip, hand: Hand, context: MoveContext) => number;
}

export type Term = GripTerm | MoveTerm;

/**
 * Costs are exact integers, thousandths of a point: sums do not depend on their order, equal costs are
 * equal, and forward and backward passes agree to the last digit.
 */
export const toCost = (term: Term, measured: number): number => Math.round(1000 * term.weight * measured);
