/** Higher on the neck is harder to find and to read. */
import type { GripTerm } from './term.ts';

export const height: GripTerm = {
  kind: 'grip',
  name: 'height on the neck',
  unit: 'mm',
  weight: 0.01,
  source:
    'beginners’ tablature takes the lowest fret for 98 % of notes (Hamberger et al. 2025, table 5); weight: our judgement',
  measure: (grip, hand) => grip.touches.reduce((sum, touch) => sum + hand.fretAt[touch.fret]!, 0),
};
