/** A note without a place in the window lies as near to it as may be. */
import type { GripTerm } from './term.ts';

export const astray: GripTerm = {
  kind: 'grip',
  name: 'outside the window',
  unit: 'mm',
  weight: 0.02,
  source: 'our judgement',
  measure: grip => grip.astray,
};
