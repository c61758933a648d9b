/** The hand travels along the neck; it is harder in haste. */
import { span } from '../hand.ts';
import type { HandTerm } from './term.ts';

export const shiftCount: HandTerm = {
  kind: 'hand',
  name: 'shift',
  unit: 'times',
  weight: 0.5,
  source: 'be sparing of shifts (Sor, as teachers quote him); weight: our judgement',
  measure: (from, to, haste) => (from === to ? 0 : haste),
};

export const shiftDistance: HandTerm = {
  kind: 'hand',
  name: 'shift, distance',
  unit: 'mm',
  weight: 0.02,
  source:
    'distance travelled (Heijink & Meulenbroek 2002) over the time there is (Hori & Sagayama 2016); weight: our judgement',
  measure: (from, to, haste, hand) => span(hand, from, to) * haste,
};
