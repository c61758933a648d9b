/** An open string sounds unlike its stopped neighbours when the hand is up the neck. */
import { isOpen } from '../grip.ts';
import { span } from '../hand.ts';
import type { GripTerm } from './term.ts';

/** Up to this position open strings belong to the passage. */
const LOW_POSITIONS = 3;

export const openString: GripTerm = {
  kind: 'grip',
  name: 'open string up the neck',
  unit: 'mm',
  weight: 0.008,
  source: 'open strings that pop up inside a closed passage are refingered by players; weight: our judgement',
  measure: (grip, hand) =>
    isOpen(grip) && grip.position > LOW_POSITIONS ? span(hand, LOW_POSITIONS, grip.position) : 0,
};
