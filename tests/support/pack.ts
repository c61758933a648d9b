/** Packs for tests. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { WindowRule } from '../../src/fingering/arrangement.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { makePack, type PackAsked } from '../../src/lesson/pack/pack.ts';
import { PART_NAMES } from '../../src/lesson/pack/parts.ts';
import { paragraph } from '../../src/lesson/pack/prose.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';

export const EXAMPLE_TUNES = [
  'amazing-grace',
  'michael-row-the-boat-ashore',
  'row-row-row-your-boat',
] as const;

export const exampleTune = (name: (typeof EXAMPLE_TUNES)[number]): Tune => {
  const path = fileURLToPath(new URL(`../../examples/tunes/${name}.musicxml`, import.meta.url));
  return chooseMelody(readScore(readFileSync(path)).score, { chords: 'top' }).tune;
};

/** A window for the whole tune, or for measures. */
export const windowOf = (low: number, high: number, from?: number, to?: number): WindowRule => ({
  measures: from === undefined || to === undefined ? undefined : { from, to },
  window: { low, high },
});

/** A pack with all parts, for low-G and high-G ukulele. */
export const packOf = (
  tune: Tune,
  windows: readonly WindowRule[],
  asked: { readonly pattern?: 'steps' | 'thirds'; readonly drill?: PackAsked['details']['drill'] } = {},
) =>
  makePack(tune, {
    instruments: ['ukulele-low-g', 'ukulele'].map(id => findInstrument(id)),
    rules: rulesFrom({ windows }),
    transpose: 0,
    match: true,
    words: { lesson: 'A lesson', group: 'A class', notes: [paragraph('Read it.')] },
    parts: PART_NAMES,
    details: {
      key: undefined,
      scale: { pattern: asked.pattern },
      drill: asked.drill ?? {},
      chords: {},
      cues: { say: () => [paragraph('On 1.')] },
    },
  });
