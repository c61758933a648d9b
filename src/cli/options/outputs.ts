/** The options that say in which formats outputs come, and where they go. */
import * as z from 'zod/mini';
import { FORMATS } from '../../emit/formats.ts';
import { flag } from './row.ts';
import { named, oneOf, whole } from './values.ts';

/** A name of a file where a folder is meant would make a folder of that name. */
const isNoFile = (name: string): boolean =>
  !FORMATS.some(({ extension }) => name.toLowerCase().endsWith(`.${extension}`));

export const FORMAT_ROWS = {
  to: {
    flags: '-t, --to <format>',
    help: FORMATS.map(each => `${each.name}: ${each.summary}`).join('; '),
    default: 'text',
    list: true,
    schema: () => z.array(oneOf(FORMATS.map(each => each.name))),
  },
} as const;

export const OUTPUT_ROWS = {
  staves: {
    flags: '--staves <count>',
    help: 'staves of musicxml and mxl: 1: notation with string, fret and finger marked; 2: tablature under it',
    default: '1',
    schema: () => whole(1, 2),
  },
  out: {
    flags: '-o, --out <folder>',
    help: 'where files go; - writes a single sheet to standard output',
    default: 'text to standard output',
    schema: () =>
      named('a folder').check(
        z.refine(isNoFile, 'name a folder, such as sheets; the files in it are named by fretward'),
      ),
  },
  width: {
    flags: '--width <columns>',
    help: 'width of text in columns',
    default: 'the terminal’s, 80 elsewhere',
    schema: () => whole(40, 1000, 'columns'),
  },
  ascii: flag('--ascii', 'text in 7-bit characters'),
  dpi: {
    flags: '--dpi <number>',
    help: 'pixels an inch of png, 30 to 600',
    default: '150',
    schema: () => whole(30, 600, 'pixels an inch'),
  },
  transparent: flag('--transparent', 'png without the white paper, for slides and video'),
  font: {
    flags: '--font <file>',
    help: 'in pdf and png, the font (.ttf, .otf, .woff) for characters beyond Latin',
    default: 'none',
    schema: () => named('a font file'),
  },
  color: {
    ...flag('--color', 'colours in text on a terminal; --no-color and the variable NO_COLOR turn them off'),
    default: 'on',
  },
} as const;
