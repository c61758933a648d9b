/** The hand travels along the neck; it is harder in haste. */
import { isOpen, type Move } from '../grip.ts';
import { span } from '../hand.ts';
import type { HandTerm } from './term.ts';

const haste = ({ from, context }: Move): number => (isOpen(from) ? context.hasteFromOpen : context.haste);

export const shiftCount: HandTerm = {
  kind: 'hand',
  name: 'shift',
  unit: 'times',
  weight: 0.5,
  source: 'be sparing of shifts (Sor, as teachers quote him); weight: our judgement',
  measure: move => (move.shift === 0 ? 0 : haste(move)),
};

export const shiftDistance: HandTerm = {
  kind: 'hand',
  name: 'shift, distance',
  unit: 'mm',
  weight: 0.02,
  source:
    'distance travelled (Heijink & Meulenbroek 2002) over the time there is (Hori & Sagayama 2016); weight: our judgement',
  measure: (move, hand) =>
    move.shift === 0 ? 0 : span(hand, move.from.position, move.to.position) * haste(move),
};
