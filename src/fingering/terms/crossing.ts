/** The melody goes to another string. */
import type { MoveTerm } from './term.ts';

export const crossing: MoveTerm = {
  kind: 'move',
  name: 'string crossing',
  unit: 'strings',
  weight: 0.1,
  source: 'keep a phrase on one string or two neighbours, common practice; weight: our judgement',
  measure: (from, to) =>
    from.touches.length === 1 && to.touches.length === 1
      ? Math.abs(from.touches[0]!.string - to.touches[0]!.string)
      : 0,
};
