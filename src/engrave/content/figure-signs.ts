/** Signs beside fret figures, and what a sheet says about them. */
import type { Arrangement } from '../../fingering/arrangement.ts';

/** A note that the window could not hold. */
export const OUTSIDE_SIGN = '*';
/** A note that lies elsewhere than in the edition that this one was matched with. */
export const ELSEWHERE_SIGN = '•';

/** Which signs a sheet with figures has, with their meaning, in a line if there are any: "* outside the window". */
export const figureLegend = ({ placements, matched, windows }: Arrangement): readonly string[] => {
  const signs = [
    ...([...placements.values()].some(({ fit }) => fit === 'outside')
      ? [`${OUTSIDE_SIGN} outside ${windows.length > 0 ? 'the window' : 'the neck’s stopped frets'}`]
      : []),
    ...(matched && matched.differences.size > 0
      ? [`${ELSEWHERE_SIGN} elsewhere than on ${matched.instrument.name}`]
      : []),
  ];
  return signs.length > 0 ? [signs.join('; ')] : [];
};
