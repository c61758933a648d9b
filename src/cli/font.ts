/** The font file of `--font`: read once, and refused before any work if it is none. */
import { basename } from 'node:path';
import type { FontFile } from '../emit/type/font-file.ts';
import { UsageError } from './exit.ts';
import { readOptionFile } from './option-file.ts';

/** First four bytes (OpenType specification, "Organization of an OpenType font"; WOFF 1.0, 4). */
const SIGNATURES = ['\u0000\u0001\u0000\u0000', 'true', 'OTTO', 'ttcf', 'wOFF'];

const HINT = 'give a .ttf, .otf or .woff file';

/** Throws a UsageError where the file cannot be read or is of another kind. */
export const readFont = (path: string): FontFile => {
  const bytes = readOptionFile('--font', path, HINT);
  const signature = String.fromCharCode(...bytes.subarray(0, 4));
  if (signature === 'wOF2') {
    throw new UsageError(
      `--font does not take "${path}": it is packed as WOFF2`,
      'give the same font as .ttf, .otf or .woff',
    );
  }
  if (!SIGNATURES.includes(signature)) {
    throw new UsageError(`--font does not take "${path}": it is no font`, HINT);
  }
  return { name: basename(path), bytes };
};
