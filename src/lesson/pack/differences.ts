/** Where two editions of a tune part, in words: what the teacher has to say twice. */
import type { Arrangement } from '../../fingering/arrangement.ts';
import { alike, countedDifferences, differencesBetween, wayOf } from '../../fingering/differences.ts';
import type { RefusedEdition } from '../../fingering/editions.ts';
import { strikesOf } from '../../fingering/strikes.ts';
import { momentNames } from '../../score/moments.ts';
import type { Tune } from '../../score/tune.ts';
import { type Block, listOf, paragraph } from './prose.ts';

/** For a booklet or a page: every note of `here` that lies elsewhere than in `there`, alike ones together. */
export const differencesInWords = (tune: Tune, here: Arrangement, there: Arrangement): readonly Block[] => {
  const differences = differencesBetween(strikesOf(tune).strikes, here, there);
  const count = countedDifferences(differences.length, there.instrument.name);
  const sentence = `${count[0]!.toUpperCase()}${count.slice(1)}`;
  if (differences.length === 0) return [paragraph(`${sentence}.`)];
  return [
    paragraph(`${sentence}:`),
    listOf(alike(differences).map(group => `${wayOf(group[0])}: ${momentNames(group)}`)),
  ];
};

/** Why an edition is not there, in words. */
export const missingInWords = ({ instrument, diagnostics }: RefusedEdition): readonly Block[] => [
  paragraph(`There are no sheets for ${instrument.name}:`),
  listOf(diagnostics.map(({ message }) => message)),
];
