/** What a drill is where nothing is said of it. */
import type { TimeSignature } from '../../score/model/attributes.ts';
import type { Tune } from '../../score/tune.ts';
import { FOUR_FOUR } from '../compose.ts';
import type { DrillAsked } from '../drill.ts';
import { SHORTEST_BEAT } from './rhythm.ts';

type Unsaid = Pick<DrillAsked, 'time' | 'measures' | 'grade' | 'seed' | 'focus'>;

/** What may be said of a drill beyond its scale and its places. */
export type DrillSaid = { readonly [K in keyof Unsaid]?: Unsaid[K] | undefined };

/** What is said, and the rest: eight easy measures in the metre of the tune that the drill goes by. */
export const usualDrill = (said: DrillSaid, tune: Tune | undefined): Unsaid => ({
  time: said.time ?? plainTime(tune) ?? FOUR_FOUR,
  measures: said.measures ?? 8,
  grade: said.grade ?? 1,
  seed: said.seed ?? 1,
  focus: said.focus ?? [],
});

/** The metre of a tune where it is one fraction with one number above, and its beats are not too short to be read. */
const plainTime = (tune: Tune | undefined): TimeSignature | undefined => {
  const time = tune?.measures[0]?.time;
  const isPlain =
    time?.kind === 'metred' &&
    time.fractions.length === 1 &&
    time.fractions.every(({ beats, beatType }) => beats.length === 1 && beatType <= SHORTEST_BEAT);
  return isPlain ? time : undefined;
};
