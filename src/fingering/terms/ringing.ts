/** In campanella neighbouring notes ring over each other: one string cannot hold two of them. */
import type { FingerTerm } from './term.ts';

export const stopsRinging: FingerTerm = {
  kind: 'finger',
  name: 'does not ring on',
  unit: 'times',
  // Only where campanella is asked for; see `model.ts`.
  weight: 0,
  source: 'campanella, common practice; weight: our judgement',
  measure: (a, b) => (a.string === b.string && a.fret !== b.fret ? 1 : 0),
};
