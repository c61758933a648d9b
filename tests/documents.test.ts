/** The README's commands run as they stand, its pictures are what the program makes, and the other guide names what there is. */
import { execFileSync, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, test } from 'vitest';
import { SHEETS } from '../src/engrave/options.ts';

const root = fileURLToPath(new URL('..', import.meta.url));
const readme = readFileSync(join(root, 'README.md'), 'utf8');
const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
  scripts: Record<string, string>;
};

/** A folder to run in that holds the examples, so that nothing is written into the checkout. */
const folder = mkdtempSync(join(tmpdir(), 'fretward-documents-'));
symlinkSync(join(root, 'examples'), join(folder, 'examples'));
afterAll(() => rmSync(folder, { recursive: true }));

const run = (words: readonly string[]): string =>
  execFileSync(process.execPath, [join(root, 'bin/fretward.js'), ...words], {
    cwd: folder,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });

/** Types a line of the README into a shell. */
const type = (line: string): string =>
  execFileSync(
    'sh',
    ['-c', `fretward() { "${process.execPath}" "${join(root, 'bin/fretward.js')}" "$@"; }; ${line}`],
    { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] },
  );

/** Splits a command line at blanks, keeping what stands between double quotes together. */
const wordsOf = (line: string): string[] =>
  [...line.matchAll(/"([^"]*)"|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare!);

const commands = readme.match(/^ {4}fretward .*$/gm)!.map(line => line.trim());

describe('the README', () => {
  test('shows many commands', () => expect(commands.length).toBeGreaterThan(10));

  test.each(commands)('%s', { timeout: 20_000 }, line => {
    const said = type(line);
    // Only a check that finds nothing, and what goes to a file, has nothing to say.
    expect(said !== '' || line.includes('--verify') || line.includes(' > ')).toBe(true);
  });

  test('its pictures are what the program makes of the examples', { timeout: 20_000 }, () => {
    const pictures = [...readme.matchAll(/\]\((examples\/sheets\/[^)]+)\)/g)].map(match => match[1]!);
    const kinds = pictures.map(picture => picture.split('.').at(-2));
    expect(kinds).toEqual(Object.keys(SHEETS));
    const words = wordsOf(manifest.scripts.pictures!).slice(2);
    run(words.map(word => (word === 'examples/sheets' ? 'sheets' : word)));
    for (const picture of pictures) {
      const made = readFileSync(join(folder, picture.replace('examples/', '')));
      expect(made.equals(readFileSync(join(root, picture))), `run npm run pictures (${picture})`).toBe(true);
    }
  });
});

describe("the README's makefile", () => {
  const built = join(folder, 'built');
  const makefile = /```make\n([^`]*)```/.exec(readme)![1]!;

  /** Makes the archive, and answers whether it was out of date. */
  const make = (): boolean => type('cd built && make -s monday.zip').includes('archived');

  test.skipIf(spawnSync('make', ['--version']).error)(
    'makes the archive anew when a sheet in it has changed, and only then',
    { timeout: 60_000 },
    () => {
      for (const name of ['tunes', 'lessons', 'bin']) mkdirSync(join(built, name), { recursive: true });
      symlinkSync(join(root, 'bin/fretward.js'), join(built, 'bin/fretward'));
      const tune = join(built, 'tunes/a.musicxml');
      const row = readFileSync(join(root, 'examples/tunes/row-row-row-your-boat.musicxml'), 'utf8');
      writeFileSync(tune, row);
      writeFileSync(
        join(built, 'lessons/monday.yaml'),
        'tune: ../tunes/a.musicxml\nwithin: ..\nparts: [quiz]\n',
      );
      const archive = makefile.replace('\tzip $@ $^', '\tcat $^ > $@; echo archived');
      writeFileSync(join(built, 'Makefile'), `export PATH := $(CURDIR)/bin:$(PATH)\n${archive}`);
      expect(make()).toBe(true);
      expect(make()).toBe(false);
      writeFileSync(tune, row.replace('<step>F</step>', '<step>G</step>'));
      expect(make()).toBe(true);
      expect(make()).toBe(false);
      writeFileSync(tune, '<broken');
      expect(make).toThrow();
      writeFileSync(tune, row);
      expect(make()).toBe(true);
    },
  );
});

describe('DEVELOPERS.md', () => {
  const text = readFileSync(join(root, 'DEVELOPERS.md'), 'utf8');
  const quoted = [...text.matchAll(/`([^`\n]+)`/g)].map(([, words]) => words!);
  const map = [...text.matchAll(/^ {4}((?:bin|src|tests|examples)\/\S*)/gm)].map(([, path]) => path!);

  test('names folders and files that are there', () => {
    const paths = quoted
      .flatMap(words => words.split(' '))
      .filter(word => /^(src|tests)\/[\w./-]+$/.test(word));
    expect(paths.length).toBeGreaterThan(10);
    expect([...map, ...paths].filter(path => !existsSync(join(root, path)))).toEqual([]);
  });

  test('names scripts that there are', () => {
    const scripts = quoted.flatMap(words => /^npm (?:run )?([\w:-]+)/.exec(words)?.[1] ?? []);
    expect(scripts.length).toBeGreaterThan(4);
    expect(scripts.filter(script => !(script in manifest.scripts) && script !== 'ci')).toEqual([]);
  });
});
