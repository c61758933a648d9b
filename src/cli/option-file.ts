/** Files that options name: read at once, so that what cannot be read is said before any work. */
import { readFileSync } from 'node:fs';
import { readFailure } from '../batch/files.ts';
import { UsageError } from './exit.ts';

/** The bytes of the file that an option names. Throws a UsageError with that hint. */
export const readOptionFile = (flag: string, path: string, hint: string): Buffer => {
  try {
    return readFileSync(path);
  } catch (error) {
    throw new UsageError(`${flag} does not take "${path}": ${readFailure(error)}`, hint);
  }
};
