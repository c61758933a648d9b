/** Where two editions of a tune part: what the teacher has to say twice. */

import type { Arrangement } from '../../fingering/arrangement.ts';
import { strikesOf } from '../../fingering/strikes.ts';
import type { Place } from '../../instrument/instrument.ts';
import { beatText } from '../../score/numbers.ts';
import { type Pitch, pitchName } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';
import { type Block, listOf, paragraph } from './prose.ts';

export interface Difference {
  /** As printed. */
  readonly measure: string;
  /** In beats of the time signature's lower number, 1-based. */
  readonly beat: number;
  readonly pitch: Pitch;
  readonly here: Place;
  readonly there: Place;
}

/** Every struck note that lies elsewhere than in another edition, in order. */
export const differencesBetween = (
  tune: Tune,
  here: Arrangement,
  there: Arrangement,
): readonly Difference[] =>
  strikesOf(tune).strikes.flatMap(({ heads, pitches, source, beat }) =>
    heads.flatMap((head, index) => {
      const mine = here.placements.get(head)!;
      const other = there.placements.get(head)!;
      if (mine.string === other.string && mine.fret === other.fret) return [];
      return [{ measure: source.measure, beat, pitch: pitches[index]!, here: mine, there: other }];
    }),
  );

/** The same in words, for a booklet or a page: notes that part in the same way are told together. */
export const differencesInWords = (
  differences: readonly Difference[],
  there: Arrangement,
): readonly Block[] => {
  const name = there.instrument.name;
  if (differences.length === 0) return [paragraph(`Every note lies where it does on ${name}.`)];
  const alike = grouped(differences, wayOf);
  return [
    paragraph(
      `${differences.length === 1 ? 'One note lies' : `${differences.length} notes lie`} elsewhere than on ${name}:`,
    ),
    listOf([...alike].map(([way, all]) => `${way}: ${momentsOf(all)}`)),
  ];
};

const wayOf = ({ pitch, here, there }: Difference): string =>
  `${pitchName(pitch)} on ${placeName(here)}, not ${placeName(there)}`;

const placeName = ({ string, fret }: Place): string =>
  fret === 0 ? `string ${string} open` : `string ${string} fret ${fret}`;

/** "measure 4 beats 1 and 3; measure 12 beat 1" */
const momentsOf = (all: readonly Difference[]): string =>
  [...grouped(all, each => each.measure)]
    .map(([measure, notes]) => {
      const beats = notes.map(({ beat }) => beatText(beat));
      const listed = beats.length === 1 ? beats[0] : `${beats.slice(0, -1).join(', ')} and ${beats.at(-1)}`;
      return `${measure === '0' ? 'pickup' : `measure ${measure}`} beat${beats.length > 1 ? 's' : ''} ${listed}`;
    })
    .join('; ');

const grouped = <T>(all: readonly T[], key: (each: T) => string): Map<string, T[]> => {
  const groups = new Map<string, T[]>();
  for (const each of all) groups.set(key(each), [...(groups.get(key(each)) ?? []), each]);
  return groups;
};
