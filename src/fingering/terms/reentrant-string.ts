/** A re-entrant string is not a melody string. */
import { reentrantStrings } from '../../instrument/places.ts';
import type { GripTerm } from './term.ts';

export const reentrantString: GripTerm = {
  kind: 'grip',
  name: 're-entrant string',
  unit: 'notes',
  weight: 3,
  source: 'the high-G ukulele is played on three strings in melodies, common practice; weight: our judgement',
  measure: (grip, hand) => {
    const strings = reentrantStrings(hand.instrument);
    return grip.touches.length === 1 && strings.includes(grip.touches[0]!.string) ? 1 : 0;
  },
};
