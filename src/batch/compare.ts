/** Outputs against the files that are there, byte by byte. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Output } from './outcome.ts';

/** One error for each output that is missing below the folder, or is not what it would be now. */
export const compare = (outputs: readonly Output[], folder: string): readonly Diagnostic[] =>
  outputs.flatMap(({ name, content }) => {
    const path = join(folder, name);
    const found = contentOf(path);
    if (found?.equals(Buffer.from(content))) return [];
    return [
      {
        severity: 'error',
        code: found ? 'output-stale' : 'output-missing',
        message: found ? 'the file is not what this command makes now' : 'the file is not there',
        hint: 'the same command without --verify writes it',
        place: { file: path },
      },
    ];
  });

const contentOf = (path: string): Buffer | undefined => {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
};
