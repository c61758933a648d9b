/** The little finger is weaker than the ring finger, and that one than the others. */
import type { GripTerm } from './term.ts';

const WEAKNESS = [0, 0, 0, 0.8, 1] as const;

export const weakFinger: GripTerm = {
  kind: 'grip',
  name: 'weak finger',
  unit: 'notes',
  weight: 0.1,
  source:
    'the preference falls from finger 1 to 4 (Hori & Sagayama 2016, from memory); weight: our judgement',
  measure: grip => grip.touches.reduce((sum, touch) => sum + WEAKNESS[touch.finger], 0),
};
