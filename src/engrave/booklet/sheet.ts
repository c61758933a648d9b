/** Pages of text beside the music: the same head and foot as every sheet, and text between. Millimetres. */
import type { Block } from '../../lesson/pack/prose.ts';
import type { Mark } from '../drawing/mark.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { type PageFrame, pageFrame, type SheetOptions } from '../options.ts';
import { footer, type Heading, runningHead } from '../page/heading.ts';
import type { Group, Page } from '../page.ts';
import { flow, type ProseLine, proseLines } from './prose.ts';

/** Of text that is read from a music stand. */
export const TEXT_SIZE = 4.5;
const TITLE_SIZE = 7.4;
const LINE_SIZE = 3.7;
const BELOW_HEAD = 6;

/** What kind of sheet it is laid out as does not matter to text. */
export type Layout = Omit<SheetOptions, 'sheet'>;

export interface TextSheet {
  readonly title: string;
  /** Under the title, at the left: tune, instrument, window. */
  readonly lines: readonly string[];
  readonly author: string | undefined;
  readonly blocks: readonly Block[];
}

/** The pages of a text. */
export const textPages = ({ title, lines, author, blocks }: TextSheet, layout: Layout): readonly Page[] => {
  const frame = pageFrame({ ...layout, sheet: 'tab' });
  const text = proseLines(blocks, { size: TEXT_SIZE, width: frame.width - 2 * frame.margin });
  return pagesOf({
    frame,
    title,
    author,
    keywords: lines,
    footer: layout.footer,
    head: page => (page === 0 ? textHead(title, lines, frame) : runningHead(title, page + 1, frame)),
    lines: text,
  });
};

export interface Setting {
  readonly frame: PageFrame;
  readonly title: string;
  readonly author: string | undefined;
  readonly keywords: readonly string[];
  readonly footer: string | undefined;
  /** By page, counted from 0. */
  readonly head: (page: number) => Heading;
  readonly lines: readonly ProseLine[];
}

/** Flows lines under heads and over feet. */
export const pagesOf = (setting: Setting): readonly Page[] => {
  const { frame, title, author, keywords, head } = setting;
  const foot = footer(setting.footer ? [setting.footer] : [], frame);
  const columns = flow(setting.lines, page => ({
    left: frame.margin,
    top: head(page).bottom + BELOW_HEAD,
    bottom: foot.top,
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
        ...(foot.marks.length > 0 ? [group(`footer-${index + 1}`, 'footer', foot.marks)] : []),
      ],
    }),
  );
};

const group = (id: string, className: Group['className'], marks: readonly Mark[]): Group => ({
  id,
  className,
  marks,
});

const textHead = (title: string, lines: readonly string[], { width, margin }: PageFrame): Heading => {
  const top = margin + TITLE_SIZE * 0.7;
  const style = { role: 'heading', face: 'serif', size: LINE_SIZE } as const;
  const marks = [
    ...anchoredText(title, { ...style, face: 'serifBold', size: TITLE_SIZE }, width / 2, top, 'middle'),
    ...lines.flatMap((line, index) =>
      anchoredText(line, style, margin, top + 3.5 + LINE_SIZE * (index + 1) * 1.32, 'start'),
    ),
  ];
  return { marks, bottom: top + 3.5 + LINE_SIZE * lines.length * 1.32 };
};
