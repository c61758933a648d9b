/**
 * Every option of every command, once; the same thing has the same name everywhere. Commands pick rows by
 * name, and list them in help in the order in which they name them.
 */
import type * as z from 'zod/mini';
import { CONFIG_ROW, LIMIT_NAMES, LIMIT_ROWS, RUN_ROWS } from './batch.ts';
import { DIAGRAM_ROWS } from './diagrams.ts';
import { LESSON_ROWS } from './lesson.ts';
import { FORMAT_ROWS, OUTPUT_ROWS } from './outputs.ts';
import { flag, type OptionRow } from './row.ts';
import { RULE_NAMES, RULE_ROWS } from './rules.ts';
import { LAYOUT_NAMES, SHEET_ROWS } from './sheets.ts';
import { INSTRUMENT_ROWS, TUNE_ROWS } from './tune.ts';
import { stretch, whole } from './values.ts';

/** What single commands answer, and how. */
const ANSWER_ROWS = {
  measure: {
    flags: '--measure <which>',
    help: 'one measure alone, by its printed number, or pickup; or several: 5-8',
    default: 'all',
    schema: stretch,
  },
  alternatives: {
    flags: '--alternatives <count>',
    help: 'instead, list so many of the cheapest fingerings, and where they differ',
    default: 'none',
    schema: () => whole(1, 50),
  },
  span: {
    flags: '--span <frets>',
    help: 'how many frets a window has',
    default: '5',
    schema: () => whole(2, 24, 'frets'),
  },
  rows: {
    flags: '--rows <count>',
    help: 'how many rows the table has, the best first',
    default: '12',
    schema: () => whole(1, 1000, 'rows'),
  },
  json: flag('--json', 'answer as JSON'),
} as const;

export const OPTIONS = {
  ...INSTRUMENT_ROWS,
  ...RULE_ROWS,
  ...TUNE_ROWS,
  ...LESSON_ROWS,
  ...DIAGRAM_ROWS,
  ...FORMAT_ROWS,
  ...SHEET_ROWS,
  ...OUTPUT_ROWS,
  ...ANSWER_ROWS,
  ...RUN_ROWS,
  ...LIMIT_ROWS,
  ...CONFIG_ROW,
  quiet: flag('-q, --quiet', 'say nothing but errors'),
} satisfies Record<string, OptionRow>;

export type OptionName = keyof typeof OPTIONS;

/** What says of which tune, for which instruments, by which rules. */
export const ARRANGING = [
  'instrument',
  'tuning',
  'capo',
  ...RULE_NAMES,
  'part',
  'voice',
  'chords',
  'transpose',
  'match',
] as const satisfies readonly OptionName[];

/** What says of sheets how they look, in which formats they come, and where they go. */
export const PRINTING = [
  'to',
  'sheets',
  'out',
  ...LAYOUT_NAMES,
  'staves',
  'width',
  'ascii',
  'dpi',
  'transparent',
  'font',
  'tempo',
  'slow',
  'countIn',
  'accompany',
  'color',
  'quiet',
] as const satisfies readonly OptionName[];

/** How large a file may be. */
export const LIMITING = LIMIT_NAMES;

/** Of every command that reads tunes: how large they may be, and which file holds options for them. */
export const READING = [...LIMITING, 'config'] as const satisfies readonly OptionName[];

/** What a fretward.yaml may say: what holds for more than one run. Each command takes of it what it knows. */
export const FILE_NAMES = [
  ...ARRANGING,
  ...PRINTING,
  'strings',
  'upright',
  'leftHanded',
  'jobs',
  ...LIMITING,
] as const satisfies readonly OptionName[];

/** What the options of a command hold once they are checked; absent ones were not typed. */
export type Options<Name extends OptionName> = {
  readonly [K in Name]?: z.output<ReturnType<(typeof OPTIONS)[K]['schema']>> | undefined;
};
