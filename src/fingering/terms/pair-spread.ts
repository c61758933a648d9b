/**
 * Two fingers that play in a row spread farther than they like to, while the hand stays. Fingers that
 * stand no more frets apart than they do by themselves are at home on any neck; middle and ring finger
 * are the pair to protect and count twice.
 */
import { type Hand, span } from '../hand.ts';
import type { FingerTerm } from './term.ts';

const PROTECTED = 2;

/** Frets between two fingers that lie at the far ends of their homes. */
const homeGap = ({ homes }: Hand, a: number, b: number): number => {
  const [low, high] = a < b ? [a, b] : [b, a];
  return homes[high - 1]!.high - homes[low - 1]!.low;
};

export const pairSpread: FingerTerm = {
  kind: 'finger',
  name: 'spread between fingers',
  unit: 'mm',
  weight: 0.05,
  source:
    'comfortable spans by pair of fingers (after Parncutt et al. 1997, from memory); no stretch between 2 and 3, common practice; weight: our judgement',
  measure: (a, b, { shift, melodic }, hand) => {
    if (shift !== 0 || !melodic || !a.finger || !b.finger || a.finger === b.finger) return 0;
    if (Math.abs(a.fret - b.fret) <= homeGap(hand, a.finger, b.finger)) return 0;
    const excess = span(hand, a.fret, b.fret) - hand.comfortable[5 * a.finger + b.finger]!;
    return (
      Math.max(0, excess) * (a.finger + b.finger === 5 && Math.abs(a.finger - b.finger) === 1 ? PROTECTED : 1)
    );
  },
};
