/** Pages of text beside the music: the same head and foot as every sheet, and text between. Millimetres. */
import type { Block } from '../../lesson/pack/prose.ts';
import type { Mark } from '../drawing/mark.ts';
import { type PageFrame, pageFrame, type SheetOptions } from '../options.ts';
import { firstHead, footer, type Heading, type HeadWords, runningHead } from '../page/heading.ts';
import type { Group, Page } from '../page.ts';
import { flow, type ProseLine, proseLines } from './prose.ts';

/** Of text that is read from a music stand. */
export const TEXT_SIZE = 4.5;
const BELOW_HEAD = 6;

/** What kind of sheet it is laid out as does not matter to text. */
export type Layout = Omit<SheetOptions, 'sheet'>;

export interface TextSheet {
  readonly words: HeadWords;
  /** At the foot of the first page: rights. */
  readonly foot: readonly string[];
  readonly author: string | undefined;
  readonly blocks: readonly Block[];
}

/** The pages of a text. */
export const textPages = ({ words, foot, author, blocks }: TextSheet, layout: Layout): readonly Page[] => {
  const frame = pageFrame({ ...layout, sheet: 'tab' });
  const text = proseLines(blocks, { size: TEXT_SIZE, width: frame.width - 2 * frame.margin });
  return pagesOf({
    frame,
    title: words.title,
    author,
    keywords: words.left,
    foot,
    footer: layout.footer,
    head: page => (page === 0 ? firstHead(words, frame) : runningHead(words.title, page + 1, frame)),
    lines: text,
  });
};

export interface Setting {
  readonly frame: PageFrame;
  readonly title: string;
  readonly author: string | undefined;
  readonly keywords: readonly string[];
  /** At the foot of the first page, and of every page. */
  readonly foot: readonly string[];
  readonly footer: string | undefined;
  /** By page, counted from 0. */
  readonly head: (page: number) => Heading;
  readonly lines: readonly ProseLine[];
}

/** Flows lines under heads and over feet. */
export const pagesOf = (setting: Setting): readonly Page[] => {
  const { frame, title, author, keywords, head } = setting;
  const every = setting.footer ? [setting.footer] : [];
  const feet = [footer([...setting.foot, ...every], frame), footer(every, frame)] as const;
  const footOf = (page: number) => feet[page === 0 ? 0 : 1];
  const columns = flow(setting.lines, page => ({
    left: frame.margin,
    top: head(page).bottom + BELOW_HEAD,
    bottom: footOf(page).top,
  }));
  return columns.map(
    (marks, index): Page => ({
      number: index + 1,
      of: columns.length,
      width: frame.width,
      height: frame.height,
      title,
      description: [title, ...keywords, `page ${index + 1} of ${columns.length}`].join('; '),
      author,
      keywords,
      groups: [
        group(`heading-${index + 1}`, 'heading', head(index).marks),
        group(`text-${index + 1}`, 'system', marks),
        ...footGroup(index, footOf(index).marks),
      ],
    }),
  );
};

const footGroup = (page: number, marks: readonly Mark[]): readonly Group[] =>
  marks.length > 0 ? [group(`footer-${page + 1}`, 'footer', marks)] : [];

const group = (id: string, className: Group['className'], marks: readonly Mark[]): Group => ({
  id,
  className,
  marks,
});
