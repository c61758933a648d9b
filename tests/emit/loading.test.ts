/** The heavy libraries of PDF and PNG are loaded by these formats alone. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const HEAVY = ['pdfkit', 'fontkit', '@resvg/resvg-js'];
/** Imports that are always loaded: neither types alone nor `import()`. */
const STATIC = /^(?:import|export)\s(?!type\b)(?:[^'"]*?\sfrom\s+)?'([^']+)'/gm;

/** Packages that a file loads with it, through whatever it imports. */
function packagesOf(file: string, seen = new Set<string>()): Set<string> {
  const found = new Set<string>();
  if (seen.has(file) || !file.endsWith('.ts')) return found;
  seen.add(file);
  for (const [, target] of readFileSync(file, 'utf8').matchAll(STATIC)) {
    if (!target!.startsWith('.')) found.add(target!);
    else for (const each of packagesOf(resolve(dirname(file), target!), seen)) found.add(each);
  }
  return found;
}

const source = (path: string): string => fileURLToPath(new URL(`../../src/${path}`, import.meta.url));

describe('what is loaded', () => {
  it.each(['cli/main.ts', 'cli/commands/arrange.ts', 'emit/formats.ts', 'emit/text.ts', 'emit/svg.ts'])(
    'by %s is light',
    path => {
      expect(existsSync(source(path))).toBe(true);
      expect(HEAVY.filter(each => packagesOf(source(path)).has(each))).toEqual([]);
    },
  );

  it('by the writer of PDF is pdfkit, by that of fonts fontkit: the walk finds what is there', () => {
    expect(packagesOf(source('emit/pdf.ts')).has('pdfkit')).toBe(true);
    expect(packagesOf(source('emit/type/fonts.ts')).has('fontkit')).toBe(true);
  });
});
