/** What people install: its files, its types, and that it runs where nothing of the project is around it. */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { publint } from 'publint';
import { formatMessage } from 'publint/utils';
import { afterAll, describe, expect, test } from 'vitest';
import manifest from '../package.json' with { type: 'json' };

const ROOT = fileURLToPath(new URL('../', import.meta.url));
const TUNE = `${ROOT}examples/tunes/amazing-grace.musicxml`;

interface Packed {
  readonly filename: string;
  /** Bytes of the tarball, and of what is in it. */
  readonly size: number;
  readonly unpackedSize: number;
  readonly files: readonly { readonly path: string }[];
}

const folder = mkdtempSync(join(tmpdir(), 'fretward-package-'));
afterAll(() => rmSync(folder, { recursive: true }));

const npm = (args: readonly string[], cwd: string): string =>
  execFileSync('npm', args, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

const pack = ['pack', '--ignore-scripts', '--json', '--pack-destination', folder];
const [packed] = JSON.parse(npm(pack, ROOT)) as [Packed];
const tarball = join(folder, packed.filename);

/** An empty project. */
const project = (name: string): string => {
  const path = join(folder, name);
  mkdirSync(join(path, 'node_modules', 'fretward'), { recursive: true });
  writeFileSync(join(path, 'package.json'), '{ "private": true, "type": "module" }');
  return path;
};

/** What a program prints that is run in a project; it may read that project and nothing else, and write nothing. */
const confined = (cwd: string, code: string, input: Uint8Array): string => {
  const flag =
    Number.parseInt(process.versions.node, 10) >= 23 ? '--permission' : '--experimental-permission';
  const args = [flag, `--allow-fs-read=${cwd}`, '--no-warnings', '--input-type=module', '--eval', code];
  return execFileSync(process.execPath, args, { cwd, input, encoding: 'utf8' });
};

const LIBRARY = `
import { arrange, findInstrument, readTune, rulesFrom, toJson, wholeTune } from 'fretward';
const chunks = [];
for await (const chunk of process.stdin) chunks.push(chunk);
const { tune, diagnostics: reading } = readTune(Buffer.concat(chunks));
const rules = rulesFrom({ windows: wholeTune(4, 8) });
const { arrangement, diagnostics } = arrange(tune, findInstrument('ukulele-low-g'), rules);
process.stdout.write(toJson(tune, arrangement, [...reading, ...diagnostics]));
`;

describe('the package', () => {
  test('holds the program, the library and the readme', () => {
    const strange = packed.files.filter(
      ({ path }) =>
        !/^(package\.json|README\.md|bin\/fretward\.js|bin\/package\.json|dist\/[\w-]+\.c?js|dist\/fretward\.1|dist\/NOTICE\.txt|dist\/types\/[\w/-]+(\.generated)?\.d\.ts)$/.test(
          path,
        ),
    );
    expect(strange).toEqual([]);
  });

  test('is small', () => {
    expect(packed.size).toBeLessThan(1.25e6);
    expect(packed.unpackedSize).toBeLessThan(3.5e6);
  });

  test('is as npm packages should be', async () => {
    const archive = readFileSync(tarball);
    const bytes = archive.buffer.slice(archive.byteOffset, archive.byteOffset + archive.byteLength);
    const { messages } = await publint({ pack: { tarball: bytes }, strict: true });
    expect(messages.map(message => formatMessage(message, manifest))).toEqual([]);
  });

  test('has what its manifest names', () => {
    const paths = new Set(packed.files.map(({ path }) => path));
    expect(paths.has(manifest.exports['.'].types.slice(2))).toBe(true);
    expect(paths.has(manifest.exports['.'].default.slice(2))).toBe(true);
  });
});

describe('unpacked into an empty project', () => {
  const cwd = project('unpacked');
  execFileSync('tar', ['-xzf', tarball, '--strip-components=1', '-C', join(cwd, 'node_modules', 'fretward')]);

  test('the library arranges a tune as the program does, and touches no file but its own', () => {
    const made = confined(cwd, LIBRARY, readFileSync(TUNE));
    const program = join(cwd, 'node_modules', 'fretward', 'bin', 'fretward.js');
    const options = ['-i', 'ukulele-low-g', '-f', '4-8', '--to', 'json', '--out', '-'];
    const args = [program, 'arrange', TUNE, ...options];
    expect(JSON.parse(made)).toMatchObject({ tune: { title: 'Amazing Grace' } });
    expect(execFileSync(process.execPath, args, { encoding: 'utf8', stdio: 'pipe' })).toBe(made);
  });

  test('its types are sound without ours, and say what it is given and answers', () => {
    writeFileSync(
      join(cwd, 'use.ts'),
      `import { arrange, engrave, explain, findInstrument, pageToSvg, readTune, Refusal, rulesFrom, toMidi, toText } from 'fretward';
       import type { Arrangement, Diagnostic, Score, Tune } from 'fretward';
       const { tune, diagnostics } = readTune(new Uint8Array(), { chords: 'all' });
       export const said: readonly Diagnostic[] = diagnostics;
       const arranged = arrange(tune, findInstrument(), rulesFrom({ level: 'least' }));
       const { arrangement } = arranged;
       export const one: Arrangement = arrangement;
       export const costs: number[] = explain(arranged).flatMap(each => each.charges.map(({ cost }) => cost));
       export const svg: string[] = engrave(tune, arrangement, { sheet: 'tab' }).pages.map(pageToSvg);
       export const track: Uint8Array = toMidi(tune, arrangement.instrument, { tempo: 80 }).bytes;
       export const text: string = toText(tune, arrangement, { sheet: 'quiz', width: 80, ascii: true, paint: (_, line) => line });
       export const parts = (score: Score): readonly string[] => score.parts.map(({ name }) => name);
       export const titled = ({ title }: Tune): string | undefined => title;
       export const refused = (error: unknown): boolean => error instanceof Refusal && error.diagnostics.length > 0;
       // @ts-expect-error there is no such level
       rulesFrom({ level: 'easy' });
       // @ts-expect-error a tune is read from bytes
       readTune('tune.mxl');\n`,
    );
    const options = {
      strict: true,
      noEmit: true,
      module: 'nodenext',
      target: 'es2022',
      lib: ['es2022'],
      types: [],
    };
    writeFileSync(
      join(cwd, 'tsconfig.json'),
      JSON.stringify({ compilerOptions: { ...options, skipLibCheck: false }, files: ['use.ts'] }),
    );
    const compiler = `${ROOT}node_modules/typescript/bin/tsc`;
    const { stdout, status } = spawnSync(process.execPath, [compiler, '--project', cwd], {
      encoding: 'utf8',
    });
    expect(stdout).toBe('');
    expect(status).toBe(0);
  });
});

/** Whether packages can be had, without waiting long. */
const hasRegistry =
  spawnSync('npm', ['ping', '--fetch-timeout=3000', '--fetch-retries=0'], { cwd: folder, timeout: 8000 })
    .status === 0;

describe.skipIf(!hasRegistry)('installed (skipped where no registry answers quickly)', () => {
  test('the program and the library run', () => {
    const cwd = join(folder, 'installed');
    mkdirSync(cwd);
    writeFileSync(join(cwd, 'package.json'), '{ "private": true, "type": "module" }');
    npm(['install', '--prefer-offline', '--no-audit', '--no-fund', tarball], cwd);
    const run = (args: readonly string[]) =>
      execFileSync(join(cwd, 'node_modules', '.bin', 'fretward'), args, {
        cwd,
        encoding: 'utf8',
        stdio: 'pipe',
      });
    expect(run(['--version']).trim()).toBe(manifest.version);
    expect(run(['arrange', TUNE, '-f', '4-8', '--to', 'json', '--out', '-'])).toMatch(
      /"fretward-arrangement"/,
    );
    const code = "console.log(typeof (await import('fretward')).arrange)";
    const args = ['--input-type=module', '--eval', code];
    expect(execFileSync(process.execPath, args, { cwd, encoding: 'utf8' }).trim()).toBe('function');
  }, 60_000);
});
