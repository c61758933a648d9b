/** The line of a file that a refusal is about, to show it. */
import { decodeXml } from '../read/decode.ts';
import { MOST } from '../read/limits.ts';
import { unpackScore } from '../read/unpack.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Input } from './inputs.ts';

/** Characters of a line that are shown, some before the column and the rest after it. */
const SHOWN = 100;
const BEFORE = 60;

const TAG = /^<[\w-]+>$/;

/** Gives each error that knows its line the text of that line, where the file can be read as text. */
export const withExcerpts = (diagnostics: readonly Diagnostic[], input: Input): readonly Diagnostic[] => {
  const shown = ({ severity, place }: Diagnostic): boolean =>
    severity === 'error' && place?.line !== undefined;
  if (!diagnostics.some(shown)) return diagnostics;
  const lines = linesOf(input);
  return diagnostics.map(each => {
    if (!shown(each)) return each;
    const line = lines[(each.place?.line ?? 0) - 1];
    const start = Math.max(0, (each.place?.column ?? 0) - BEFORE);
    const excerpt = line?.slice(start, start + SHOWN).trim();
    // An opening tag alone says nothing to a reader.
    return excerpt && !TAG.test(excerpt) ? { ...each, excerpt } : each;
  });
};

const linesOf = (input: Input): readonly string[] => {
  try {
    const bytes = input.load();
    return decodeXml(unpackScore(bytes, MOST.bytes)).split(/\r\n|\n|\r/);
  } catch {
    return [];
  }
};
