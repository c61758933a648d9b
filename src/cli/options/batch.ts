/** The options that say how many tunes are worked through, and what is told about it. */
import * as z from 'zod/mini';
import { oneOf, whole } from './values.ts';

export const REPORTS = ['text', 'json', 'jsonl'] as const;

export const LIMIT_ROWS = {
  maxBytes: {
    flags: '--max-bytes <size>',
    help: 'refuse a file, or the score packed in it, of more bytes: 1000000, 500k, 64M (default: 64M)',
    schema: () => byteCount(),
  },
  maxNotes: {
    flags: '--max-notes <count>',
    help: 'refuse a score with more notes and rests (default: 500000)',
    schema: () => whole(1, 100_000_000),
  },
} as const;

export const BATCH_ROWS = {
  jobs: {
    flags: '-j, --jobs <count>',
    help: 'tunes that are worked on at the same time (default: the number of cores)',
    schema: () => whole(1, 256),
  },
  force: {
    flags: '--force',
    help: 'make sheets anew even where tune, options and program are what they were',
    schema: () => z.boolean(),
  },
  dryRun: {
    flags: '--dry-run',
    help: 'write nothing, and list what would be written',
    schema: () => z.boolean(),
  },
  verify: {
    flags: '--verify',
    help: 'write nothing; fail if a sheet is missing or is not what it would be now',
    schema: () => z.boolean(),
  },
  watch: {
    flags: '--watch',
    help: 'stay, and make sheets anew when a tune changes',
    schema: () => z.boolean(),
  },
  report: {
    flags: '--report <form>',
    help: 'tell what became of each tune on standard output: text; json: one document; jsonl: a line for each, as it is done',
    schema: () => oneOf(REPORTS),
  },
  shard: {
    flags: '--shard <i/n>',
    help: 'of all tunes, every n-th from the i-th on: 1/4, 2/4, … on four machines',
    schema: () => share(),
  },
  depfile: {
    flags: '--depfile <file>',
    help: 'write which sheets depend on which tunes, as make reads it',
    schema: () => z.string().check(z.minLength(1, 'name a file')),
  },
  config: {
    flags: '--config <file>',
    help: 'options for these tunes (default: fretward.yaml in the folder of tunes, or here)',
    schema: () => z.union([z.string().check(z.minLength(1, 'name a file')), z.literal(false)]),
  },
  noConfig: {
    flags: '--no-config',
    help: 'obey no fretward.yaml',
    schema: () => z.boolean(),
  },
  ...LIMIT_ROWS,
} as const;

export const BATCH_NAMES = Object.keys(BATCH_ROWS) as (keyof typeof BATCH_ROWS)[];

const UNITS: Readonly<Record<string, number>> = { '': 1, k: 2 ** 10, m: 2 ** 20, g: 2 ** 30 };

/** "64M": bytes. */
const byteCount = () =>
  z.pipe(
    z.string().check(z.regex(/^[1-9]\d{0,9}[kMG]?$/i, 'write a number of bytes: 1000000, 500k, 64M')),
    z.transform((text: string) => Number.parseInt(text, 10) * UNITS[text.replace(/\d/g, '').toLowerCase()]!),
  );

/** "2/4": the second of four. */
const share = () => {
  const message = 'write which share of how many: 1/4 is the first of four';
  return z
    .pipe(
      z.string().check(z.regex(/^\d{1,5}\/\d{1,5}$/, message)),
      z.transform((text: string) => {
        const [index, count] = text.split('/').map(Number) as [number, number];
        return { index, count };
      }),
    )
    .check(z.refine(({ index, count }) => index >= 1 && index <= count, message));
};
