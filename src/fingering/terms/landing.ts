/** After a shift up the index finger lands, after a shift down the little finger: the hand then lies ahead. */
import { hasGuide } from './guide-finger.ts';
import type { MoveTerm } from './term.ts';

export const landing: MoveTerm = {
  kind: 'move',
  name: 'landing of a shift',
  unit: 'fingers',
  weight: 0.1,
  source: 'shift up to the first finger and down to the fourth, common practice; weight: our judgement',
  measure: (from, to) => {
    if (from.position === to.position || hasGuide(from, to)) return 0;
    let fingers = 0;
    for (const { finger } of to.touches) {
      if (finger > 0) fingers += to.position > from.position ? finger - 1 : 4 - finger;
    }
    return fingers;
  },
};
