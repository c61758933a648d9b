/** Where two editions of a tune part. */
import type { Place } from '../instrument/instrument.ts';
import { placeName } from '../instrument/places.ts';
import { type Group, groupBy } from '../score/groups.ts';
import type { Moment } from '../score/moments.ts';
import { type Pitch, pitchName } from '../score/pitch.ts';
import type { Arrangement } from './arrangement.ts';
import type { Strike } from './strikes.ts';

/** A note that two editions play in different places. */
export interface Difference extends Moment {
  readonly pitch: Pitch;
  readonly here: Place;
  readonly there: Place;
}

/** Every struck note that lies elsewhere than in another edition, in order. */
export const differencesBetween = (
  strikes: readonly Strike[],
  here: Arrangement,
  there: Arrangement,
): readonly Difference[] =>
  strikes.flatMap(({ heads, pitches, source, beat }) =>
    heads.flatMap((head, index) => {
      const mine = here.placements.get(head)!;
      const other = there.placements.get(head)!;
      if (mine.string === other.string && mine.fret === other.fret) return [];
      return [{ measure: source.measure, beat, pitch: pitches[index]!, here: mine, there: other }];
    }),
  );

/** "C4 on string 3 open, not string 4 fret 5": what a note is here and is not there. */
export const wayOf = ({ pitch, here, there }: Difference): string =>
  `${pitchName(pitch)} on ${placeName(here)}, not ${placeName(there)}`;

/** Notes that part in the same way, together. */
export const alike = (differences: readonly Difference[]): readonly Group<Difference>[] =>
  groupBy(differences, wayOf);

/** "Every note lies where it does on ukulele"; "8 notes lie elsewhere than on ukulele". */
export const countedDifferences = (count: number, other: string): string => {
  if (count === 0) return `every note lies where it does on ${other}`;
  return `${count === 1 ? 'one note lies' : `${count} notes lie`} elsewhere than on ${other}`;
};
