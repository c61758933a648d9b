/**
 * The keys of a lesson file, in the order in which a teacher reads them. Most are options of the command
 * line under their own names, checked as if they had been typed; the few that are not have rows here.
 */
import * as z from 'zod/mini';
import { FORMATS } from '../../emit/formats.ts';
import { PART_NAMES, PARTS, USUAL_PARTS } from '../../lesson/pack/parts.ts';
import { namesIn } from '../../lesson/table.ts';
import { ARRANGING, OPTIONS, type OptionName } from '../options/options.ts';
import { helpOf, isFlag, longName, type OptionRow, type Said } from '../options/row.ts';
import { LAYOUT_NAMES } from '../options/sheets.ts';
import { listed, oneOf } from '../options/values.ts';
import type { Takes } from '../yaml/check.ts';

const words = (most: number) =>
  z.string().check(z.minLength(1, 'write a text'), z.maxLength(most, `write at most ${most} characters`));

/** Characters of a lesson's name, at most. */
export const LONGEST_NAME = 200;

/** BCP 47, as far as pages need it: a language, and perhaps script and region. */
const LANGUAGE = /^[a-z]{2,3}(-[A-Za-z]{4})?(-([A-Z]{2}|\d{3}))?$/;

interface KeyRow {
  readonly help: string;
  readonly default?: string;
  readonly list?: true;
  readonly schema: () => z.ZodMiniType;
}

export const OWN_ROWS = {
  tune: {
    help: 'the MusicXML file of the melody, from the folder of this file',
    schema: () => words(1000),
  },
  lesson: {
    help: 'what the lesson is called, on the cover and the page',
    default: 'the title of the tune',
    schema: () => words(LONGEST_NAME),
  },
  class: { help: 'whose lesson it is: a class, a club', schema: () => words(200) },
  notes: { help: 'to the student, in Markdown', schema: () => words(20_000) },
  language: {
    help: 'the language of the notes, for screen readers: en, de, pt-BR',
    default: 'en',
    schema: () =>
      z.string().check(z.regex(LANGUAGE, 'write the letters of a language, such as en, de or pt-BR')),
  },
  parts: {
    help: `what is handed out: ${PART_NAMES.map(name => `${name}: ${PARTS[name].summary}`).join('; ')}`,
    default: listed(USUAL_PARTS),
    list: true,
    schema: () => z.array(oneOf(PART_NAMES)),
  },
  within: {
    help: 'the folder that paths in this file may not leave, from its own',
    default: 'its own',
    schema: () => words(1000),
  },
} as const satisfies Record<string, KeyRow>;

export type OwnName = keyof typeof OWN_ROWS;

/** The options that a lesson file may set. */
const LESSON_OPTIONS = [
  ...ARRANGING,
  'key',
  'octaves',
  'direction',
  'pattern',
  'metre',
  'measures',
  'grade',
  'seed',
  'focus',
  'every',
  'strings',
  'near',
  'shapes',
  'show',
  'upright',
  'leftHanded',
  'tempo',
  'slow',
  'countIn',
  'accompany',
  'to',
  ...LAYOUT_NAMES,
  'staves',
  'dpi',
  'transparent',
  'font',
  'out',
] as const satisfies readonly OptionName[];

export type LessonOption = (typeof LESSON_OPTIONS)[number];

/** What is the same for every key. */
export interface Key extends Takes {
  readonly name: string;
  /** What it says, and the default behind it. */
  readonly help: string;
  readonly default: string | undefined;
  /** Of the words that the option takes elsewhere, those that it takes here; undefined where it takes all. */
  readonly words?: readonly string[];
  readonly from:
    | { readonly kind: 'own'; readonly own: OwnName }
    | { readonly kind: 'option'; readonly option: LessonOption };
}

/** Where an option has another default in a lesson, or takes other values. */
const SAID: Partial<Record<LessonOption, Said>> = {
  match: { default: 'true' },
  key: { default: 'the key of the tune' },
  fingers: { default: 'none, but all on the scale' },
  positions: { default: 'false, but true on the scale' },
  shapes: { default: '1' },
  footer: { default: 'class and lesson' },
  to: {
    help: 'formats of the single sheets, svg, pdf or png; musicxml, mxl, json and midi for the tune',
    default: 'pdf,midi',
    words: FORMATS.map(({ name }) => name).filter(name => name !== 'text'),
  },
  out: {
    help: 'the folder in which the lesson gets one of its own, from that of this file',
    default: 'that of this file',
  },
};

export const KEYS: readonly Key[] = [
  ...namesIn(OWN_ROWS).map((own): Key => {
    const row: KeyRow = OWN_ROWS[own];
    const { list = false, schema, default: standard } = row;
    const from = { kind: 'own', own } as const;
    return { name: own, help: helpOf(row), default: standard, list, flag: false, schema, from };
  }),
  ...LESSON_OPTIONS.map((option): Key => {
    const row: OptionRow = OPTIONS[option];
    return {
      name: longName(row),
      help: helpOf(row, SAID[option]),
      default: SAID[option]?.default ?? row.default,
      list: row.list ?? false,
      flag: isFlag(row),
      schema: row.schema,
      ...(SAID[option]?.words && { words: SAID[option].words }),
      from: { kind: 'option', option },
    };
  }),
];
