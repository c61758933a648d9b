/** The font file of `--font`: read once, and refused before any work if it is none. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { FontFile } from '../emit/formats.ts';
import { UsageError } from './exit.ts';

/** First four bytes (OpenType specification, "Organization of an OpenType font"; WOFF 1.0, 4). */
const SIGNATURES = ['\u0000\u0001\u0000\u0000', 'true', 'OTTO', 'ttcf', 'wOFF'];

/** Throws a UsageError where the file cannot be read or is of another kind. */
export const readFont = (path: string): FontFile => {
  const bytes = contentOf(path);
  const signature = String.fromCharCode(...bytes.subarray(0, 4));
  if (signature === 'wOF2') {
    throw new UsageError(
      `--font does not take "${path}": it is packed as WOFF2`,
      'give the same font as .ttf, .otf or .woff',
    );
  }
  if (!SIGNATURES.includes(signature)) {
    throw new UsageError(`--font does not take "${path}": it is no font`, 'give a .ttf, .otf or .woff file');
  }
  return { name: basename(path), bytes };
};

const contentOf = (path: string): Uint8Array => {
  try {
    return readFileSync(path);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    const why =
      code === 'ENOENT' ? 'there is no such file' : `it cannot be read (${code ?? 'unknown cause'})`;
    throw new UsageError(`--font does not take "${path}": ${why}`, 'give a .ttf, .otf or .woff file');
  }
};
