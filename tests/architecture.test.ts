/** The rooms of src/ know each other in one direction only; see DEVELOPERS.md for the map. */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';

const SRC = fileURLToPath(new URL('../src', import.meta.url));

/** For each room, the rooms it may import from. */
const KNOWS: Readonly<Record<string, readonly string[]>> = {
  score: [],
  read: ['score'],
  instrument: ['score'],
  fingering: ['score', 'instrument'],
  lesson: ['score', 'instrument', 'fingering'],
  engrave: ['score', 'instrument', 'fingering', 'lesson'],
  emit: ['score', 'instrument', 'fingering', 'lesson', 'engrave'],
  batch: ['score', 'read', 'instrument', 'fingering', 'lesson', 'engrave', 'emit'],
  // The library: what the command line calls, without the command line.
  'index.ts': ['score', 'read', 'instrument', 'fingering', 'lesson', 'engrave', 'emit'],
  // Loads the built program.
  start: [],
  cli: ['score', 'read', 'instrument', 'fingering', 'lesson', 'engrave', 'emit', 'batch'],
};

/** What only the outer rooms may touch. */
const OUTSIDE_WORLD = /^(node:(fs|process|child_process|worker_threads|os|readline|tty)|chalk|commander)\b/;

const IMPORT = /(?:from|import)\s*\(?\s*'([^']+)'/g;

const files = readdirSync(SRC, { recursive: true, encoding: 'utf8' }).filter(file => file.endsWith('.ts'));

const importsOf = (file: string): readonly string[] =>
  [...readFileSync(join(SRC, file), 'utf8').matchAll(IMPORT)].map(match => match[1]!);

describe('the imports under src/', () => {
  test.each(files)('%s looks only inwards', file => {
    const room = file.split(sep)[0]!;
    const known = KNOWS[room];
    expect(known, `src/${room} is a room that this test does not know`).toBeDefined();
    for (const target of importsOf(file)) {
      if (!target.startsWith('.')) {
        const outer = room === 'cli' || room === 'batch' || room === 'start';
        expect(outer || !OUTSIDE_WORLD.test(target), `${file} imports ${target}`).toBe(true);
        continue;
      }
      const path = relative(SRC, resolve(SRC, dirname(file), target));
      if (path.startsWith('..')) {
        expect(path, `${file} imports ${target}`).toBe(join('..', 'package.json'));
        continue;
      }
      const other = path.split(sep)[0]!;
      expect(other === room || known!.includes(other), `${file} imports ${target}`).toBe(true);
    }
  });
});

/** For each file of src/, those that it imports, types included. */
const INSIDE: ReadonlyMap<string, readonly string[]> = new Map(
  files.map(file => [
    file,
    importsOf(file)
      .filter(target => target.startsWith('.'))
      .map(target => relative(SRC, resolve(SRC, dirname(file), target)))
      .filter(path => files.includes(path)),
  ]),
);

const inside = (file: string): readonly string[] => INSIDE.get(file) ?? [];

/** Whether a file reaches itself by way of what it imports. */
const comesBack = (file: string): boolean => {
  const reached = new Set(inside(file));
  for (const each of reached) for (const next of inside(each)) reached.add(next);
  return reached.has(file);
};

test('no file comes back to itself by way of what it imports', () => {
  expect(files.filter(comesBack)).toEqual([]);
});
