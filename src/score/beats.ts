/** How a metre is counted. */

import type { TimeSignature } from './model/attributes.ts';
import type { Ticks } from './model/duration.ts';

/**
 * Lengths of the beats that a measure is counted in, in ticks: three eighths in 6/8, 9/8 and 12/8 (compound
 * metres, common practice), the lower number elsewhere; of 3+2/8 the groups. Four quarters without a metre.
 */
export const beatsOf = (time: TimeSignature | undefined, division: Ticks): readonly Ticks[] => {
  if (time?.kind !== 'metred') return [division, division, division, division];
  return time.fractions.flatMap(({ beats, beatType }) => {
    const unit = (4 * division) / beatType;
    if (beats.length > 1) return beats.map(count => count * unit);
    const count = beats[0]!;
    const compound = beatType >= 8 && count > 3 && count % 3 === 0;
    return Array.from({ length: compound ? count / 3 : count }, () => (compound ? 3 * unit : unit));
  });
};
