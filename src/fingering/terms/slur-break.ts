/** A slur is broken across strings: its second note has to be plucked. */
import type { FingerTerm } from './term.ts';

export const slurBreak: FingerTerm = {
  kind: 'finger',
  name: 'slur across strings',
  unit: 'times',
  weight: 1,
  source: 'slurred notes stay on one string, common practice; weight: our judgement',
  measure: (a, b, { slurred, melodic }) => (melodic && slurred && a.string !== b.string ? 1 : 0),
};
