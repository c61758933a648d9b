/** Two fingers that play in a row spread farther than they like to, while the hand stays. */
import { span } from '../hand.ts';
import type { FingerTerm } from './term.ts';

export const pairSpread: FingerTerm = {
  kind: 'finger',
  name: 'spread between fingers',
  unit: 'mm',
  weight: 0.05,
  source:
    'comfortable spans by pair of fingers (after Parncutt et al. 1997, from memory); weight: our judgement',
  measure: (a, b, { shift, melodic }, hand) => {
    if (shift !== 0 || !melodic || !a.finger || !b.finger || a.finger === b.finger) return 0;
    return Math.max(0, span(hand, a.fret, b.fret) - hand.comfortable[5 * a.finger + b.finger]!);
  },
};
