/** A slur is broken across strings: its second note has to be plucked. */
import type { MoveTerm } from './term.ts';

export const slurBreak: MoveTerm = {
  kind: 'move',
  name: 'slur across strings',
  unit: 'times',
  weight: 1,
  source: 'slurred notes stay on one string, common practice; weight: our judgement',
  measure: (from, to, _hand, context) =>
    context.slurred && from.touches[0]!.string !== to.touches[0]!.string ? 1 : 0,
};
