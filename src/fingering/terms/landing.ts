/** After a shift up the index finger lands, after a shift down the little finger: the hand then lies ahead. */
import { guides } from './guide-finger.ts';
import type { FingerTerm } from './term.ts';

export const landing: FingerTerm = {
  kind: 'finger',
  name: 'landing of a shift',
  unit: 'fingers',
  weight: 0.1,
  source: 'shift up to the first finger and down to the fourth, common practice; weight: our judgement',
  measure: (a, b, move) => {
    if (move.shift === 0 || b.finger === 0 || !move.melodic || guides(a, b, move)) return 0;
    return move.shift > 0 ? b.finger - 1 : 4 - b.finger;
  },
};
