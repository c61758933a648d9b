/** The table of codes is whole: every code in the sources stands in it. That each comes up is shown in provoked.test.ts. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { CODES } from '../../src/cli/codes.ts';

const SRC = fileURLToPath(new URL('../../src', import.meta.url));

const sources = readdirSync(SRC, { recursive: true, encoding: 'utf8' })
  .filter(file => file.endsWith('.ts') && !file.endsWith('.generated.ts') && file !== join('cli', 'codes.ts'))
  .map(file => ({ file, text: readFileSync(join(SRC, file), 'utf8') }));

/** `code: 'a'`, `code: found ? 'a' : 'b'`. */
const inLiterals = (text: string): readonly string[] =>
  [...text.matchAll(/\bcode:([^,;\n]*)/g)].flatMap(([, value]) =>
    [...value!.matchAll(/'([a-z]+(?:-[a-z]+)*)'/g)].map(match => match[1]!),
  );

describe('the table of codes', () => {
  const known = new Set(CODES.map(each => each.code));

  it.each(sources.filter(({ text }) => inLiterals(text).length > 0))('has the codes of $file', ({ text }) => {
    // A new diagnostic? Give its code a line in src/cli/codes.ts.
    expect(inLiterals(text).filter(code => !known.has(code))).toEqual([]);
  });

  it('is in order, each code once, and every field says something', () => {
    const codes = CODES.map(each => each.code);
    expect(codes).toEqual([...new Set(codes)].sort());
    for (const { what, why, whatToDo } of CODES) {
      for (const words of [what, why, whatToDo]) expect(words).toMatch(/^\S.{5,}[^.]$/s);
    }
  });
});
