/** The shapes of a cost term. Each term is one record in one file; `index.ts` is the table of all. */
import { type FingerMove, type Grip, isOpen, type MoveContext, shiftOf, type Touch } from '../grip.ts';
import type { Hand } from '../hand.ts';

/** What all terms say of themselves. */
export interface TermBase {
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

/** What a shift costs the hand as a whole: from one position to another, in such haste. */
export interface HandTerm extends TermBase {
  readonly kind: 'hand';
  readonly measure: (from: number, to: number, haste: number, hand: Hand) => number;
}

/**
 * What a move costs the fingers: measured from each place touched before to each touched after, and
 * summed. `a.finger` or `b.finger` is 0 on an open string.
 */
export interface FingerTerm extends TermBase {
  readonly kind: 'finger';
  readonly measure: (a: Touch, b: Touch, move: FingerMove, hand: Hand) => number;
}

/** What a move from one grip to the next costs. */
export type MoveTerm = HandTerm | FingerTerm;
/** Any term. */
export type Term = GripTerm | MoveTerm;

/**
 * Costs are exact integers, thousandths of a point: sums do not depend on their order, equal costs are
 * equal, and forward and backward passes agree to the last digit.
 */
export const toCost = (term: Term, measured: number): number =>
  measured === 0 ? 0 : Math.round(1000 * term.weight * measured);

/** What a term measures of a move between two grips, in its unit, and what that costs. */
export const chargeMove = (
  term: MoveTerm,
  from: Grip,
  to: Grip,
  hand: Hand,
  context: MoveContext,
): { readonly measured: number; readonly cost: number } => {
  if (term.kind === 'hand') {
    const measured = term.measure(from.position, to.position, hasteFor(from, context), hand);
    return { measured, cost: toCost(term, measured) };
  }
  if (context.rested) return { measured: 0, cost: 0 };
  const move = {
    shift: shiftOf(from.position, to.position),
    melodic: from.touches.length === 1 && to.touches.length === 1,
    slurred: context.slurred,
  };
  let measured = 0;
  let cost = 0;
  for (const a of from.touches) {
    for (const b of to.touches) {
      const each = term.measure(a, b, move, hand);
      measured += each;
      cost += toCost(term, each);
    }
  }
  return { measured, cost };
};

/** The haste of the hand when it leaves a grip. */
export const hasteFor = (from: Grip, context: MoveContext): number =>
  isOpen(from) ? context.hasteFromOpen : context.haste;
