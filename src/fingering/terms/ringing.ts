/** In campanella neighbouring notes ring over each other: one string cannot hold two of them. */
import type { MoveTerm } from './term.ts';

export const stopsRinging: MoveTerm = {
  kind: 'move',
  name: 'does not ring on',
  unit: 'times',
  // Only where campanella is asked for; see `model.ts`.
  weight: 0,
  source: 'campanella, common practice; weight: our judgement',
  measure: (from, to) =>
    from.touches.some(a => to.touches.some(b => a.string === b.string && a.fret !== b.fret)) ? 1 : 0,
};
