/** Two fingers that play in a row spread farther than they like to, while the hand stays. */
import { span } from '../hand.ts';
import type { MoveTerm } from './term.ts';

export const pairSpread: MoveTerm = {
  kind: 'move',
  name: 'spread between fingers',
  unit: 'mm',
  weight: 0.05,
  source:
    'comfortable spans by pair of fingers (after Parncutt et al. 1997, from memory); weight: our judgement',
  measure: (from, to, hand) => {
    if (from.position !== to.position || from.touches.length + to.touches.length > 2) return 0;
    let excess = 0;
    for (const a of from.touches) {
      for (const b of to.touches) {
        if (!a.finger || !b.finger || a.finger === b.finger) continue;
        excess += Math.max(0, span(hand, a.fret, b.fret) - hand.comfortable[5 * a.finger + b.finger]!);
      }
    }
    return excess;
  },
};
