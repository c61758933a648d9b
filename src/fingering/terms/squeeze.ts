/** A finger is drawn in behind the fret where it stands by itself. */
import type { GripTerm } from './term.ts';

export const squeeze: GripTerm = {
  kind: 'grip',
  name: 'squeeze',
  unit: 'frets',
  weight: 0.35,
  source: 'contraction inside the position, common practice; weight: our judgement',
  measure: (grip, hand) => {
    let frets = 0;
    for (const { finger, fret } of grip.touches) {
      if (finger > 1) frets += Math.max(0, grip.position + hand.homes[finger - 1]!.low - fret);
    }
    return frets;
  },
};
