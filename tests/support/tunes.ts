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

const read = (name: string, bytes: Uint8Array): RealTune => ({
  name,
  tune: chooseMelody(readScore(bytes).score, { chords: 'top' }).tune,
});

export const exampleTunes = (): readonly RealTune[] =>
  readdirSync(EXAMPLES)
    .filter(file => /\.(mxl|xml|musicxml)$/.test(file))
    .map(file => read(file, readFileSync(EXAMPLES + file)));

/** The examples, and the corpus; says so where that is absent. */
export const realTunes = (): readonly RealTune[] => {
  if (!hasCorpus) console.warn('skipped the corpus: there is no ../shared/corpus');
  return [...exampleTunes(), ...corpusFiles('tunes').map(file => read(file, corpusBytes('tunes', file)))];
};
