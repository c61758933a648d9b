/** A finger reaches past the fret where it stands by itself: the fret it has to find, and the spread of the hand. */
import type { Grip, Touch } from '../grip.ts';
import { type Hand, span } from '../hand.ts';
import type { GripTerm } from './term.ts';

/** Sums over the fingers that reach past the upper end of their home. */
const overReaching = (
  grip: Grip,
  hand: Hand,
  measure: (touch: Touch, homeFret: number) => number,
): number => {
  let sum = 0;
  for (const touch of grip.touches) {
    if (touch.finger === 0) continue;
    const homeFret = grip.position + hand.homes[touch.finger - 1]!.high;
    if (touch.fret > homeFret) sum += measure(touch, homeFret);
  }
  return sum;
};

export const reach: GripTerm = {
  kind: 'grip',
  name: 'reach past the finger’s fret',
  unit: 'frets',
  weight: 0.12,
  source: 'one finger a fret (on the mandolin two), common practice; weight: our judgement',
  measure: (grip, hand) => overReaching(grip, hand, ({ fret }, homeFret) => fret - homeFret),
};

export const stretch: GripTerm = {
  kind: 'grip',
  name: 'stretch',
  unit: 'mm',
  weight: 0.03,
  source:
    'what a hand can reach is a length (Heijink & Meulenbroek 2002); relaxed spans after Parncutt et al. 1997, from memory; weight: our judgement',
  measure: (grip, hand) =>
    overReaching(grip, hand, ({ finger, fret }, homeFret) => {
      const relaxed = Math.max(hand.relaxed[5 + finger]!, span(hand, grip.position, homeFret));
      return Math.max(0, span(hand, grip.position, fret) - relaxed);
    }),
};
