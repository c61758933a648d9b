/** Real tunes: the project's examples, and those of the corpus where there is one. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { corpusBytes, corpusFiles, hasCorpus } from './corpus.ts';

const EXAMPLES = fileURLToPath(new URL('../../examples/tunes/', import.meta.url));

export interface RealTune {
  readonly name: string;
  readonly tune: Tune;
}

type Chords = 'top' | 'all';

const read = (name: string, bytes: Uint8Array, chords: Chords): RealTune => ({
  name,
  tune: chooseMelody(readScore(bytes).score, { chords }).tune,
});

export const exampleTunes = (chords: Chords = 'top'): readonly RealTune[] =>
  readdirSync(EXAMPLES)
    .filter(file => /\.(mxl|xml|musicxml)$/.test(file))
    .map(file => read(file, readFileSync(EXAMPLES + file), chords));

/** The examples, and the corpus; says so where that is absent. */
export const realTunes = (chords: Chords = 'top'): readonly RealTune[] => {
  if (!hasCorpus) console.warn('skipped the corpus: there is no ../shared/corpus');
  return [
    ...exampleTunes(chords),
    ...corpusFiles('tunes').map(file => read(file, corpusBytes('tunes', file), chords)),
  ];
};
