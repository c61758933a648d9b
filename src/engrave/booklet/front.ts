/** The front of a booklet: cover lines, contents, what the teacher has to say, differences. Millimetres. */
import type { Pack } from '../../lesson/pack/pack.ts';
import type { Block } from '../../lesson/pack/prose.ts';
import type { Mark } from '../drawing/mark.ts';
import { anchoredText, richText } from '../measure/rich-text.ts';
import { type PageFrame, pageFrame } from '../options.ts';
import { type Heading, runningHead } from '../page/heading.ts';
import type { Page } from '../page.ts';
import { type ProseLine, proseLines } from './prose.ts';
import { type Layout, pagesOf, TEXT_SIZE } from './sheet.ts';

/** A line of the contents. */
export interface Entry {
  readonly title: string;
  /** Of the booklet. */
  readonly page: number;
}

export interface Front {
  readonly words: Pack['words'];
  /** What lies elsewhere than in other editions, and which of them there are not. */
  readonly differences: readonly Block[];
  /** The tune, its writers, the instrument, the window. */
  readonly lines: readonly string[];
  readonly author: string | undefined;
  readonly contents: readonly Entry[];
}

const LESSON_SIZE = 10;
const GROUP_SIZE = 4.8;
const LINE_SIZE = 4.4;
const ENTRY = TEXT_SIZE * 1.6;
const ABOVE_NOTES = TEXT_SIZE * 2.6;

/** The first pages of a booklet. Their number does not depend on the numbers in the contents. */
export const frontPages = (
  { words, differences, lines, author, contents }: Front,
  layout: Layout,
): readonly Page[] => {
  const frame = pageFrame({ ...layout, sheet: 'tab' });
  const width = frame.width - 2 * frame.margin;
  const [first, ...notes] = proseLines([...words.notes, ...underHeading(differences)], {
    size: TEXT_SIZE,
    width,
  });
  return pagesOf({
    frame,
    title: words.lesson,
    author,
    keywords: lines,
    foot: [],
    footer: layout.footer,
    head: page => (page === 0 ? coverHead(words, lines, frame) : runningHead(words.lesson, page + 1, frame)),
    lines: [
      heading('In this booklet', TEXT_SIZE * 1.4),
      ...contents.map(entry => contentsLine(entry, width)),
      ...(first ? [{ ...first, advance: ABOVE_NOTES }, ...notes] : []),
    ],
  });
};

const underHeading = (differences: readonly Block[]): readonly Block[] =>
  differences.length === 0
    ? []
    : [{ kind: 'heading', words: [{ text: 'Where the editions differ' }] }, ...differences];

const heading = (text: string, advance: number): ProseLine => ({
  marks: richText(text, { role: 'heading', face: 'serifBold', size: TEXT_SIZE * 1.12 }).marks,
  advance,
  keep: true,
});

/** Title, dots, and the page at the right; the dots of all lines stand under each other. */
const contentsLine = ({ title, page }: Entry, width: number): ProseLine => {
  const style = { role: 'heading', face: 'serif', size: TEXT_SIZE } as const;
  const name = richText(title, style);
  const number = anchoredText(String(page), style, width, 0, 'end');
  const step = 2.2;
  const dots: Mark[] = [];
  for (let x = Math.ceil((name.width + 2) / step) * step; x < width - 9; x += step) {
    dots.push(...richText('.', style, x).marks);
  }
  return { marks: [...name.marks, ...dots, ...number], advance: ENTRY, keep: false };
};

const coverHead = (
  { lesson, group }: Pack['words'],
  lines: readonly string[],
  { width, margin }: PageFrame,
): Heading => {
  const marks: Mark[] = [];
  const style = { role: 'heading', face: 'serif', size: LINE_SIZE } as const;
  const room = width - 2 * margin;
  const put = (text: string, face: 'serif' | 'serifBold' | 'serifItalic', size: number, y: number) => {
    const natural = richText(text, { role: 'heading', face, size }).width;
    const fitted = natural > room ? (size * room) / natural : size;
    marks.push(...anchoredText(text, { role: 'heading', face, size: fitted }, width / 2, y, 'middle'));
  };
  let y = margin + 4;
  if (group) {
    y += GROUP_SIZE;
    put(group, 'serifItalic', GROUP_SIZE, y);
  }
  y += LESSON_SIZE * 1.25;
  put(lesson, 'serifBold', LESSON_SIZE, y);
  y += 3;
  for (const line of lines) {
    y += LINE_SIZE * 1.4;
    put(line, style.face, LINE_SIZE, y);
  }
  y += 6;
  marks.push({
    kind: 'line',
    role: 'heading',
    x1: margin,
    x2: width - margin,
    y1: y,
    y2: y,
    thickness: 0.25,
  });
  return { marks, bottom: y + 4 };
};
