/** The melody goes to another string. */
import type { FingerTerm } from './term.ts';

export const crossing: FingerTerm = {
  kind: 'finger',
  name: 'string crossing',
  unit: 'strings',
  weight: 0.1,
  source: 'keep a phrase on one string or two neighbours, common practice; weight: our judgement',
  measure: (a, b, { melodic }) => (melodic ? Math.abs(a.string - b.string) : 0),
};
