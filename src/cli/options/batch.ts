/** The options that say how many tunes are worked through, and what is told about it. */
import * as z from 'zod/mini';
import { namesIn } from '../../lesson/table.ts';
import { flag } from './row.ts';
import { byteCount, named, oneOf, share, whole } from './values.ts';

const REPORTS = ['text', 'json', 'jsonl'] as const;

export const LIMIT_ROWS = {
  maxBytes: {
    flags: '--max-bytes <size>',
    help: 'refuse a file, or the score packed in it, of more bytes: 1000000, 500k, 64M',
    default: '64M',
    schema: byteCount,
  },
  maxNotes: {
    flags: '--max-notes <count>',
    help: 'refuse a score with more notes and rests',
    default: '500000',
    schema: () => whole(1, 100_000_000),
  },
} as const;

export const RUN_ROWS = {
  jobs: {
    flags: '-j, --jobs <count>',
    help: 'tunes that are worked on at the same time',
    default: 'the number of cores',
    schema: () => whole(1, 256),
  },
  force: flag('--force', 'make sheets anew even where tune, options and program are what they were'),
  dryRun: flag('--dry-run', 'write nothing, and list what would be written'),
  verify: flag(
    '--verify',
    'write nothing; fail if a sheet is missing, is not what it would be now, or is left over from earlier runs',
  ),
  watch: flag('--watch', 'stay, and make sheets anew when a tune changes'),
  report: {
    flags: '--report <form>',
    help: 'tell what became of each tune on standard output: text; json: one document; jsonl: a line for each, as it is done',
    default: 'none; files are listed',
    schema: () => oneOf(REPORTS),
  },
  share: {
    flags: '--share <i/n>',
    help: 'of all tunes, every n-th from the i-th on: 1/4, 2/4, … on four machines',
    default: '1/1, all of them',
    schema: share,
  },
  depfile: {
    flags: '--depfile <file>',
    help: 'write which sheets depend on which files, as make reads it',
    default: 'none',
    schema: () => named('a file'),
  },
} as const;

export const CONFIG_ROW = {
  config: {
    flags: '--config <file>',
    help: 'options for these tunes; --no-config obeys no fretward.yaml',
    default: 'fretward.yaml beside the tunes or above them, up to here',
    revocable: true,
    schema: () => z.union([named('a file'), z.literal(false)]),
  },
} as const;

export const LIMIT_NAMES = namesIn(LIMIT_ROWS);
/** What says how a run goes, whatever it makes. */
export const RUN_NAMES = namesIn(RUN_ROWS);
