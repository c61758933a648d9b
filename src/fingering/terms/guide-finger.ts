/** A finger that stays on its string through a shift leads the hand: part of the shift is given back. */
import type { FingerMove, Touch } from '../grip.ts';
import type { FingerTerm } from './term.ts';

/** Whether the finger of `a` is the one of `b`, and keeps its string while the hand shifts. */
export const guides = (a: Touch, b: Touch, move: FingerMove): boolean =>
  move.shift !== 0 && a.finger > 0 && a.finger === b.finger && a.string === b.string && a.fret !== b.fret;

export const guideFinger: FingerTerm = {
  kind: 'finger',
  name: 'guide finger',
  unit: 'times',
  weight: -0.1,
  source: 'guide fingers stay in contact through a shift, common practice; weight: our judgement',
  measure: (a, b, move) => (guides(a, b, move) ? 1 : 0),
};
