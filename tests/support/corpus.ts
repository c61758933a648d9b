/** The corpus beside the project, where there is one. Tests that need it skip, and say so, where there is none. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe } from 'vitest';

const ROOT = fileURLToPath(new URL('../../../shared/', import.meta.url));

export const VERIFIER = `${ROOT}tools/verify-tab.py`;

export type Room = 'tunes' | 'reader';

export const hasCorpus = existsSync(`${ROOT}corpus/tunes`);

/** File names of a room of the corpus; none where it is absent. */
export const corpusFiles = (room: Room): readonly string[] =>
  hasCorpus ? readdirSync(`${ROOT}corpus/${room}`).filter(file => /\.(mxl|xml|musicxml)$/.test(file)) : [];

export const corpusPath = (room: Room, file: string): string => `${ROOT}corpus/${room}/${file}`;

export const corpusBytes = (room: Room, file: string): Uint8Array => readFileSync(corpusPath(room, file));

/** Like `describe`, for tests over the corpus. */
export const describeCorpus = (name: string, body: () => void): void => {
  if (hasCorpus) describe(name, body);
  else describe.skip(`${name} (skipped: there is no ../shared/corpus)`, body);
};
