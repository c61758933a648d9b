/** The hand travels along the neck; it is harder in haste. */
import { isOpen } from '../grip.ts';
import { span } from '../hand.ts';
import type { MoveTerm } from './term.ts';

export const shiftDistance: MoveTerm = {
  kind: 'move',
  name: 'shift, distance',
  unit: 'mm',
  weight: 0.02,
  source:
    'distance travelled (Heijink & Meulenbroek 2002) over the time there is (Hori & Sagayama 2016); weight: our judgement',
  measure: (from, to, hand, context) =>
    from.position === to.position
      ? 0
      : span(hand, from.position, to.position) * (isOpen(from) ? context.hasteFromOpen : context.haste),
};

export const shiftCount: MoveTerm = {
  kind: 'move',
  name: 'shift',
  unit: 'times',
  weight: 0.5,
  source: 'be sparing of shifts (Sor, as teachers quote him); weight: our judgement',
  measure: (from, to, _hand, context) =>
    from.position === to.position ? 0 : isOpen(from) ? context.hasteFromOpen : context.haste,
};
