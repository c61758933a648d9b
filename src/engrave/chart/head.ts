/** Head and foot of the pages of a lesson's diagrams, and the pages themselves. In millimetres. */
import { bounds, type Mark } from '../drawing/mark.ts';
import { anchoredText, richText } from '../measure/rich-text.ts';
import type { PageFrame } from '../options.ts';
import { footer, runningHead } from '../page/heading.ts';
import type { Group, Page } from '../page.ts';

/** What is printed around diagrams. */
export interface Words {
  readonly title: string;
  readonly subtitle?: string | undefined;
  /** At the left under the title: instrument, frets. */
  readonly left: readonly string[];
  /** At the right: composer. */
  readonly right: readonly string[];
  /** At the foot of the first page. */
  readonly foot: readonly string[];
  /** At the foot of every page. */
  readonly footer?: string | undefined;
  readonly author: string | undefined;
}

const TITLE = 7.4;
const SUBTITLE = 4.6;
const LINE = 3.7;
const LEADING = 1.32;
const BELOW = 5;

/** The head of the first page. */
function firstHead(words: Words, { width, margin }: PageFrame): Mark[] {
  const room = width - 2 * margin;
  const marks: Mark[] = [];
  let y = margin;
  const centred = (text: string, face: 'serifBold' | 'serifItalic', size: number): void => {
    const natural = richText(text, { role: 'heading', face, size }).width;
    const fitted = Math.min(size, (size * room) / natural);
    y += size * 0.8;
    marks.push(...anchoredText(text, { role: 'heading', face, size: fitted }, width / 2, y, 'middle'));
    y += 1.5;
  };
  if (words.title !== '') centred(words.title, 'serifBold', TITLE);
  if (words.subtitle) centred(words.subtitle, 'serifItalic', SUBTITLE);
  const style = { role: 'heading', face: 'serif', size: LINE } as const;
  const line = (text: string, x: number, index: number, anchor: 'start' | 'end'): Mark[] =>
    anchoredText(text, style, x, y + 1 + LINE * LEADING * (index + 1), anchor);
  words.left.forEach((text, index) => {
    marks.push(...line(text, margin, index, 'start'));
  });
  words.right.forEach((text, index) => {
    marks.push(...line(text, width - margin, index, 'end'));
  });
  return marks;
}

const headMarks = (words: Words, frame: PageFrame, page: number): readonly Mark[] =>
  page === 0 ? firstHead(words, frame) : runningHead(words.title, page + 1, frame).marks;

const footLines = (words: Words, page: number): readonly string[] => [
  ...(page === 0 ? words.foot : []),
  ...(words.footer ? [words.footer] : []),
];

/** Where diagrams may stand on a page (0-based). */
export function roomBetween(
  words: Words,
  frame: PageFrame,
  page: number,
): { readonly top: number; readonly bottom: number } {
  const marks = headMarks(words, frame, page);
  return {
    top: Math.max(frame.margin, ...marks.map(mark => bounds(mark).bottom)) + BELOW,
    bottom: footer(footLines(words, page), frame).top,
  };
}

/** The pages, each with the groups that are given for it. */
export const diagramPages = (
  words: Words,
  frame: PageFrame,
  groups: readonly (readonly Group[])[],
): readonly Page[] =>
  groups.map((content, index) => {
    const foot = footer(footLines(words, index), frame).marks;
    return {
      number: index + 1,
      of: groups.length,
      width: frame.width,
      height: frame.height,
      title: words.title || 'Untitled',
      description: [...words.left, `page ${index + 1} of ${groups.length}`].join('; '),
      author: words.author,
      keywords: words.left,
      groups: [
        { id: `heading-${index + 1}`, className: 'heading', marks: headMarks(words, frame, index) },
        ...content,
        ...(foot.length > 0
          ? [{ id: `footer-${index + 1}`, className: 'footer' as const, marks: foot }]
          : []),
      ],
    };
  });
