/** The index finger reaches back below its position while the hand stays. */
import type { GripTerm } from './term.ts';

export const drawBack: GripTerm = {
  kind: 'grip',
  name: 'index drawn back',
  unit: 'frets',
  weight: 0.5,
  source: 'first-finger stretch of position playing, common practice; weight: our judgement',
  measure: grip => {
    let frets = 0;
    for (const { finger, fret } of grip.touches) {
      if (finger === 1) frets += Math.max(0, grip.position - fret);
    }
    return frets;
  },
};
