/**
 * The built program on files that have gone wrong: it never crashes, hangs, leaves a file half-written, or
 * ends with a fault of its own. `npm run fuzz` takes many files, `npm test` a few; FUZZ_RUNS and
 * FUZZ_SEED say how many and which.
 */
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { unzipSync } from 'fflate';
import { expect, it } from 'vitest';
import { CODES } from '../../src/cli/codes.ts';
import { type Terminal, TUNES, terminal } from '../cli/terminal.ts';
import { diceFrom, mutate } from './mutate.ts';

const RUNS = Number(process.env.FUZZ_RUNS ?? 150);
const SEED = Number(process.env.FUZZ_SEED ?? 1);
const CORPUS = fileURLToPath(new URL('../../../shared/corpus', import.meta.url));
/** Files that one run of the program gets. */
const BATCH = 500;
/** What a tune may take. */
const MOST_SECONDS = 5;
/** Where files lie afterwards that the program could not stand. */
const KEPT = join(tmpdir(), 'fretward-fuzz');

/** Tunes of the examples and, where it is there, of the corpus, packed ones also unpacked. */
const sources = [TUNES, ...(existsSync(CORPUS) ? [CORPUS] : [])]
  .flatMap(folder =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter(name => /\.(musicxml|xml|mxl)$/.test(name))
      .sort()
      .map(name => readFileSync(join(folder, name))),
  )
  .flatMap((bytes): readonly Uint8Array[] => {
    if (bytes[0] !== 0x50) return [bytes];
    const score = Object.entries(unzipSync(bytes)).find(([name]) => !name.startsWith('META-INF'));
    return score ? [bytes, ...Array<Uint8Array>(6).fill(score[1])] : [bytes];
  });

/** What the runs ask for, in turn. */
const ASKED = [
  '-i guitar',
  '-f 4-8',
  '-i guitar --chords all --level least',
  '-i ukulele-low-g -i ukulele -f 3-9 --match --one-place',
  '-i guitar -f 1-8:4-8,9-16:0-5 --keep-marked --transpose 2',
];

const KNOWN = new Set(CODES.map(each => each.code));

/** What else takes a tune, in turn; a tenth of the files go that way as well. */
const OTHERS = [
  'inspect in --json',
  'check in -f 4-8 --chords all',
  'chords in --to svg --out out',
  'difficulty in -i guitar',
  'cues in/*',
  'explain in --measure 1',
];

const nameOf = (seed: number): string => `${seed}.musicxml`;

const fill = (term: Terminal, from: number, to: number): void => {
  for (let seed = from; seed < to; seed++) {
    const dice = diceFrom(seed);
    term.write(`in/${nameOf(seed)}`, mutate(sources[dice(sources.length)]!, dice));
  }
};

interface Line {
  readonly kind: string;
  readonly file: string;
  readonly result: string;
  readonly outputs: readonly string[];
  readonly milliseconds: number;
  readonly diagnostics: readonly { readonly code: string; readonly message: string }[];
}

const keep = (term: Terminal, file: string): string => {
  mkdirSync(KEPT, { recursive: true });
  const path = join(KEPT, file.replace('in/', ''));
  cpSync(term.path(file), path);
  return path;
};

/** Files that took long are tried once more, alone and by the clock of the processor: the machine may have been busy. */
const tooSlow = async (term: Terminal, lines: readonly Line[], asked: string): Promise<readonly string[]> => {
  const slow: string[] = [];
  for (const { file, milliseconds } of lines) {
    if (milliseconds < MOST_SECONDS * 1000) continue;
    const { status } = await term.run(
      `ulimit -t ${MOST_SECONDS + 1}; fretward arrange ${file} --no-config --to text,svg,musicxml,midi -s tab ${asked} --out alone -q`,
    );
    if (status !== 0 && status !== 1) slow.push(`${keep(term, file)}: more than ${MOST_SECONDS} s`);
  }
  return slow;
};

const ENDS: Readonly<Record<string, RegExp>> = {
  svg: /<\/svg>\s*$/,
  musicxml: /<\/score-partwise>\s*$/,
  txt: /\n$/,
};

const isWhole = (path: string): boolean => {
  const end = ENDS[path.slice(path.lastIndexOf('.') + 1)];
  return statSync(path).size > 0 && (end?.test(readFileSync(path, 'utf8')) ?? true);
};

for (let from = SEED * 1_000_000; from < SEED * 1_000_000 + RUNS; from += BATCH) {
  const to = Math.min(from + BATCH, SEED * 1_000_000 + RUNS);
  it(`stands files ${from} to ${to - 1}`, async () => {
    const term = terminal();
    fill(term, from, to);
    const asked = ASKED[(from / BATCH) % ASKED.length]!;
    const { stdout, stderr, status } = await term.run(
      `timeout -s KILL 600 fretward arrange in --no-config --to text,svg,musicxml,midi -s tab ${asked} --out out -q --report jsonl`,
    );
    const lines = stdout
      .trim()
      .split('\n')
      .map(line => JSON.parse(line) as Line)
      .filter(({ kind }) => kind === 'tune');
    const bad = lines.filter(({ result }) => result !== 'written' && result !== 'refused');
    expect(
      bad.map(each => `${keep(term, each.file)}: ${each.result}, ${each.diagnostics[0]?.message}`),
    ).toEqual([]);
    const said = new Set(lines.flatMap(each => each.diagnostics.map(({ code }) => code)));
    expect([...said].filter(code => !KNOWN.has(code))).toEqual([]);
    expect(await tooSlow(term, lines, asked)).toEqual([]);
    expect([0, 1], stderr.slice(-2000)).toContain(status);
    expect(lines).toHaveLength(to - from);
    expect(
      readdirSync(term.path('out'), { recursive: true, encoding: 'utf8' }).filter(name =>
        name.endsWith('.part'),
      ),
    ).toEqual([]);
    const outputs = lines.flatMap(each => each.outputs);
    expect(outputs.filter(name => !isWhole(term.path(name)))).toEqual([]);
    expect(outputs.length).toBeGreaterThan(0);
  }, 700_000);
}

OTHERS.forEach((line, index) => {
  const count = Math.min(BATCH, Math.ceil(RUNS / 10 / OTHERS.length));
  const from = (SEED + 1) * 1_000_000 - (index + 1) * BATCH;
  it(`stands files ${from} to ${from + count - 1}: fretward ${line}`, async () => {
    const term = terminal();
    fill(term, from, from + count);
    const { stderr, status } = await term.run(
      `timeout -s KILL 600 fretward ${line} --json-errors > said.txt`,
    );
    const said = stderr.split('\n').flatMap(each => (each.startsWith('{') ? [JSON.parse(each)] : []));
    const faults = said.filter(each => each.code === 'fault');
    expect(faults.map(each => `${keep(term, each.place.file)}: ${each.message}`)).toEqual([]);
    expect(said.map(each => each.code).filter(code => !KNOWN.has(code))).toEqual([]);
    expect([0, 1], stderr.slice(-2000)).toContain(status);
  }, 700_000);
});
