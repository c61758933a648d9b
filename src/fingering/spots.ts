/** Where notes stand in a tune, and many such places in few words. */
import type { Source } from '../score/diagnostic.ts';
import { momentsInShort } from '../score/moments.ts';
import type { Pitch } from '../score/pitch.ts';
import type { Strike } from './strikes.ts';

/** A note, and when it is struck. */
export interface Spot {
  readonly pitch: Pitch;
  readonly source: Source;
  /** In beats of the time signature's lower number, 1-based. */
  readonly beat: number;
}

/** Of notes struck together, the one with that index, the lowest if none is named. */
export const spotOf = (strike: Strike, index = 0): Spot => ({
  pitch: strike.pitches[index]!,
  source: strike.source,
  beat: strike.beat,
});

/** A spot as a diagnostic names it. */
export const placeOf = ({ source, beat }: Spot) => ({ ...source, beat });

/** "measure 3 beats 1 and 2.5; measure 7 beat 4"; by their measures alone where there are many. */
export const listSpots = (spots: readonly Spot[]): string => momentsInShort(spots.map(placeOf));
