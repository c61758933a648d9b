/** Notes that the window does not hold: each counts, and the farther away the more. */
import type { GripTerm } from './term.ts';

/** Dear enough that a place inside a window is always cheaper than none. */
export const outside: GripTerm = {
  kind: 'grip',
  name: 'outside the window',
  unit: 'notes',
  weight: 20,
  source: 'our judgement',
  measure: grip => (grip.fit === 'outside' ? 1 : 0),
};

export const astray: GripTerm = {
  kind: 'grip',
  name: 'distance from the window',
  unit: 'mm',
  weight: 0.02,
  source: 'our judgement',
  measure: grip => grip.astray,
};

export const rescue: GripTerm = {
  kind: 'grip',
  name: 'open string to the rescue',
  unit: 'notes',
  weight: 10,
  source: 'our judgement',
  measure: grip => (grip.fit === 'open' ? 1 : 0),
};
