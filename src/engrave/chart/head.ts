/** Head and foot of the pages of a lesson's diagrams, and the pages themselves. In millimetres. */
import { bounds, type Mark } from '../drawing/mark.ts';
import type { PageFrame } from '../options.ts';
import { firstHead, footer, type HeadWords, runningHead } from '../page/heading.ts';
import type { Group, Page } from '../page.ts';

/** What is printed around diagrams. */
export interface Words extends HeadWords {
  /** At the foot of the first page. */
  readonly foot: readonly string[];
  /** At the foot of every page. */
  readonly footer?: string | undefined;
  readonly author: string | undefined;
}

const BELOW = 5;

const headMarks = (words: Words, frame: PageFrame, page: number): readonly Mark[] =>
  page === 0 ? firstHead(words, frame).marks : runningHead(words.title, page + 1, frame).marks;

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
