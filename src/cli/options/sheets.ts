/** The options that say how sheets look, and the layout that they make. */
import * as z from 'zod/mini';
import { PAPERS, SHEETS, type SheetName, type SheetOptions } from '../../engrave/options.ts';
import { namesIn } from '../../lesson/table.ts';
import { flag } from './row.ts';
import { listed, millimetres, oneOf, whole } from './values.ts';

const SHEET_NAMES = namesIn(SHEETS);

/** What is printed where a teacher names nothing: the pair to check against and to be quizzed by. */
export const DEFAULT_SHEETS: readonly SheetName[] = ['tab', 'quiz'];

const text = () => z.string().check(z.maxLength(300, 'write at most 300 characters'));

export const SHEET_ROWS = {
  sheets: {
    flags: '-s, --sheets <kinds>',
    help: SHEET_NAMES.map(name => `${name}: ${SHEETS[name].label}`).join('; '),
    default: `${DEFAULT_SHEETS.join(',')}; tab alone on a terminal`,
    list: true,
    schema: () => z.array(oneOf(SHEET_NAMES)),
  },
  fingers: {
    flags: '--fingers <which>',
    help: 'fingers of the left hand on the sheets: none; changes: where they are not plain from the position; all',
    default: 'none',
    schema: () => oneOf(['none', 'changes', 'all']),
  },
  positions: flag('--positions', 'Roman numerals where the position of the hand changes'),
  letterBoxes: flag('--letter-boxes', 'small boxes on a quiz, to write note letters in'),
  title: {
    flags: '--title <text>',
    help: 'printed at the head of the sheet; "" for none',
    default: 'the tune’s own title',
    schema: text,
  },
  subtitle: {
    flags: '--subtitle <text>',
    help: 'printed under the title',
    default: 'none',
    schema: text,
  },
  footer: {
    flags: '--footer <text>',
    help: 'printed at the foot of every page',
    default: 'none',
    schema: text,
  },
  measuresPerSystem: {
    flags: '--measures-per-system <count>',
    help: 'how many measures stand on a line',
    default: 'as many as are evenly spaced',
    schema: () => whole(1, 32),
  },
  keepBreaks: flag('--keep-breaks', 'break lines and pages where the file does'),
  staffSize: {
    flags: '--staff-size <mm>',
    help: 'height of the five lines, 4 to 16 mm',
    default: '8 mm',
    schema: () => millimetres(4, 16),
  },
  paper: {
    flags: '--paper <size>',
    help: `the paper: ${listed(namesIn(PAPERS))}`,
    default: 'a4',
    schema: () => oneOf(namesIn(PAPERS)),
  },
  landscape: flag('--landscape', 'the long side of the paper across'),
  margins: {
    flags: '--margins <mm>',
    help: 'all four margins, 5 to 50 mm; many printers need 12.7',
    default: '15 mm',
    schema: () => millimetres(5, 50),
  },
} as const;

type Checked = {
  readonly [K in keyof typeof SHEET_ROWS]?:
    | z.output<ReturnType<(typeof SHEET_ROWS)[K]['schema']>>
    | undefined;
};

export const LAYOUT_NAMES = namesIn(SHEET_ROWS).filter(name => name !== 'sheets');

/** The layout that the options ask for; what they do not say is the engraver's to choose. */
export const layoutOf = ({ margins, ...said }: Checked): Omit<SheetOptions, 'sheet'> => {
  const layout = Object.fromEntries(
    LAYOUT_NAMES.flatMap(name => {
      const value = name === 'margins' ? undefined : said[name];
      return value === undefined ? [] : [[name, value]];
    }),
  );
  return { ...layout, ...(margins !== undefined && { margin: margins }) };
};
