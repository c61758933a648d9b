/** Arranges a few notes and writes the answer the way check values are written. */
import { arrange } from '../../src/fingering/arrange.ts';
import type { Placement } from '../../src/fingering/arrangement.ts';
import { type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { quarters } from './melody.ts';

export interface Asked extends Partial<Rules> {
  readonly frets?: readonly [number, number];
}

export const rulesOf = ({ frets, ...said }: Asked): Rules =>
  rulesFrom(frets ? { windows: wholeTune(...frets), ...said } : said);

/** The placements of quarter notes, in order. */
export const placed = (names: string, instrument: string, asked: Asked = {}): readonly Placement[] => {
  const tune = quarters(names);
  const { arrangement } = arrange(tune, findInstrument(instrument), rulesOf(asked));
  return [...arrangement.placements.entries()].sort(([a], [b]) => a - b).map(([, placement]) => placement);
};

/** "3/5[1] 3/7[3]": string/fret[finger], open strings without a finger. */
export const written = (placements: readonly Placement[]): string =>
  placements.map(({ string, fret, finger }) => `${string}/${fret}${finger ? `[${finger}]` : ''}`).join(' ');

/** The positions the hand takes, each named once until it changes. */
export const positions = (placements: readonly Placement[]): readonly number[] =>
  placements.map(each => each.position).filter((position, index, all) => position !== all[index - 1]);
