/**
 * Every option of every command, once: the flag, what help says, and how its words are checked.
 * Commands pick rows by name; the same thing has the same name everywhere.
 */
import type { Command } from 'commander';
import * as z from 'zod/mini';
import { FORMATS } from '../../emit/formats.ts';
import { DEFAULT_INSTRUMENT, INSTRUMENTS } from '../../instrument/catalogue.ts';
import { UsageError } from '../exit.ts';
import { nearest } from '../nearest.ts';
import { BATCH_ROWS } from './batch.ts';
import { LESSON_ROWS } from './lesson.ts';
import { RULE_NAMES, RULE_ROWS } from './rules.ts';
import { SHEET_ROWS } from './sheets.ts';
import { listed, oneOf, transposition, whole, wordsTaken } from './values.ts';

export interface OptionRow {
  readonly flags: string;
  readonly help: string;
  /** May be given several times, or once with commas. */
  readonly list?: true;
  readonly schema: () => z.ZodMiniType;
}

export const OPTIONS = {
  instrument: {
    flags: '-i, --instrument <id>',
    help: `one of ${listed(INSTRUMENTS.map(each => each.id))}, or a JSON file that describes yours; several make an edition each (default: ${DEFAULT_INSTRUMENT})`,
    list: true,
    schema: () => z.array(z.string()),
  },
  tuning: {
    flags: '--tuning <notes>',
    help: 'open strings as you say them, string 1 last: "G3 C4 E4 A4"',
    schema: () => z.string(),
  },
  capo: {
    flags: '--capo <fret>',
    help: 'put a capo at this fret; frets are counted from it (default: 0)',
    schema: () => whole(0, 36),
  },
  ...RULE_ROWS,
  part: {
    flags: '--part <part>',
    help: 'the part to arrange, by name, id or number (default: the first with notes)',
    schema: () => z.string(),
  },
  voice: {
    flags: '--voice <id>',
    help: 'the voice of that part (default: its first with notes)',
    schema: () => z.string(),
  },
  chords: {
    flags: '--chords <which>',
    help: 'of notes struck together: top: the highest alone; all: all of them, as shapes (default: top)',
    schema: () => oneOf(['top', 'all']),
  },
  transpose: {
    flags: '--transpose <semitones>',
    help: 'move the tune up, or down with a minus; best: to the key in which most notes fit, at least effort (default: 0)',
    schema: transposition,
  },
  match: {
    flags: '--match',
    help: 'of several instruments, the later ones play as many notes as can be where the first one does',
    schema: () => z.boolean(),
  },
  ...LESSON_ROWS,
  shapes: {
    flags: '--shapes <count>',
    help: 'how many shapes for each chord, the fullest and easiest first (default: 3; 1 on the chart of a tune)',
    schema: () => whole(1, 12),
  },
  near: {
    flags: '--near <fret>',
    help: 'where on the neck the hand should be (default: as low as can be)',
    schema: () => whole(1, 36),
  },
  show: {
    flags: '--show <what>',
    help: 'what stands in the places: letters: note letters; fingers; counts: how often the tune uses each (default: letters)',
    schema: () => oneOf(['letters', 'fingers', 'counts']),
  },
  upright: {
    flags: '--upright',
    help: 'the neck upright, as chord frames are',
    schema: () => z.boolean(),
  },
  leftHanded: {
    flags: '--left-handed',
    help: 'drawn for a left-handed player',
    schema: () => z.boolean(),
  },
  to: {
    flags: '-t, --to <format>',
    help: `${FORMATS.map(each => `${each.name}: ${each.summary}`).join('; ')} (default: text)`,
    list: true,
    schema: () => z.array(oneOf(FORMATS.map(each => each.name))),
  },
  ...SHEET_ROWS,
  staves: {
    flags: '--staves <count>',
    help: 'staves of musicxml and mxl: 1: notation with string, fret and finger marked; 2: tablature under it (default: 1)',
    schema: () => whole(1, 2),
  },
  out: {
    flags: '-o, --out <folder>',
    help: 'where files go; - writes a single sheet to standard output (default: text to standard output)',
    schema: () => z.string().check(z.minLength(1, 'name a folder')),
  },
  width: {
    flags: '--width <columns>',
    help: 'width of text sheets in columns (default: the terminal’s, 80 elsewhere)',
    schema: () => whole(40, 1000),
  },
  ascii: {
    flags: '--ascii',
    help: 'text sheets in 7-bit characters',
    schema: () => z.boolean(),
  },
  dpi: {
    flags: '--dpi <number>',
    help: 'pixels an inch of png, 30 to 600 (default: 150)',
    schema: () => whole(30, 600),
  },
  transparent: {
    flags: '--transparent',
    help: 'png without the white paper, for slides and video',
    schema: () => z.boolean(),
  },
  font: {
    flags: '--font <file>',
    help: 'in pdf and png, the font (.ttf, .otf, .woff) for characters beyond Latin',
    schema: () => z.string().check(z.minLength(1, 'name a font file')),
  },
  color: {
    flags: '--no-color',
    help: 'no colour, not even on a terminal (NO_COLOR does the same)',
    schema: () => z.boolean(),
  },
  measure: {
    flags: '--measure <number>',
    help: 'one measure alone, by its printed number (default: all)',
    schema: () => z.string(),
  },
  alternatives: {
    flags: '--alternatives <count>',
    help: 'instead, list so many of the cheapest fingerings, and where they differ',
    schema: () => whole(1, 50),
  },
  span: {
    flags: '--span <frets>',
    help: 'how many frets a window has (default: 5)',
    schema: () => whole(2, 24),
  },
  rows: {
    flags: '--rows <count>',
    help: 'how many rows the table has, the best first (default: 12)',
    schema: () => whole(1, 1000),
  },
  json: {
    flags: '--json',
    help: 'answer as JSON',
    schema: () => z.boolean(),
  },
  ...BATCH_ROWS,
  quiet: {
    flags: '-q, --quiet',
    help: 'say nothing but errors',
    schema: () => z.boolean(),
  },
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

/** What the options of a command hold once they are checked; absent ones were not typed. */
export type Options<Name extends OptionName> = {
  readonly [K in Name]?: z.output<ReturnType<(typeof OPTIONS)[K]['schema']>> | undefined;
};

/** Gives a command its options, in the order named. */
export const addOptions = (command: Command, names: readonly OptionName[]): Command => {
  for (const name of names) {
    const row: OptionRow = OPTIONS[name];
    if (row.list) command.option(row.flags, row.help, collect);
    else command.option(row.flags, row.help);
  }
  return command;
};

const collect = (value: string, before: readonly string[] | undefined): readonly string[] => [
  ...(before ?? []),
  ...value.split(',').map(each => each.trim()),
];

/** Checks what was typed. Throws a UsageError that names the option and what it takes. */
export const checkOptions = <Name extends OptionName>(
  typed: Readonly<Record<string, unknown>>,
  names: readonly Name[],
): Options<Name> => {
  const checked: Record<string, unknown> = {};
  for (const name of names) {
    if (typed[name] === undefined) continue;
    const result = check(name, typed[name]);
    if (result.reasons !== undefined) {
      const flag = OPTIONS[name].flags.match(/--[a-z-]+/)![0];
      throw new UsageError(`${flag} does not take "${String(typed[name])}"`, result.reasons);
    }
    checked[name] = result.value;
  }
  return checked as Options<Name>;
};

/** The value that an option takes from what was typed, or the reasons why not, in words that say what it takes. */
export const check = (
  name: OptionName,
  typed: unknown,
): { readonly value?: unknown; readonly reasons?: string } => {
  const row: OptionRow = OPTIONS[name];
  return checkValue(row.schema(), typed);
};

/** The same for any schema. */
export const checkValue = (
  schema: z.ZodMiniType,
  typed: unknown,
): { readonly value?: unknown; readonly reasons?: string } => {
  const result = schema.safeParse(typed);
  if (result.success) return { value: result.data };
  const words = wordsTaken(schema);
  const wrong = [typed].flat().find(each => !words.includes(String(each)));
  const meant = nearest(String(wrong), words);
  const reasons = [...new Set(result.error.issues.map(issue => issue.message))].join('; ');
  return { reasons: meant === undefined ? reasons : `is ${meant} meant? ${reasons}` };
};
