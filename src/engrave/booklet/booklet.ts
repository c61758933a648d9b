/** A booklet: a front and the parts bound together, with one numbering and a contents. */

import type { Edition, Pack } from '../../lesson/pack/pack.ts';
import { creditLines } from '../../score/credits.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { pageFrame } from '../options.ts';
import { editionLines } from '../page/heading.ts';
import type { Group, Page } from '../page.ts';
import { type Entry, type Front, frontPages } from './front.ts';
import type { Layout } from './sheet.ts';

/** The pages of one part, as they are when it stands alone. */
export interface Section {
  readonly title: string;
  readonly pages: readonly Page[];
}

const NUMBER_SIZE = 3.9;

/** The tune and who made it; a title that is the lesson's is not said twice. */
export const tuneLine = ({ tune, words }: Pack): readonly string[] => {
  const parts = [tune.title === words.lesson ? undefined : tune.title, ...creditLines(tune)].filter(Boolean);
  return parts.length > 0 ? [parts.join(' · ')] : [];
};

/** The booklet of one edition. */
export const bookletPages = (
  pack: Pack,
  edition: Edition,
  sections: readonly Section[],
  layout: Layout,
): readonly Page[] => {
  const { words, tune, missing } = pack;
  const lines = editionLines(tune, edition.arrangement, false);
  const front: Omit<Front, 'contents'> = {
    words,
    differences: [...edition.differences, ...missing.flatMap(({ reasons }) => reasons)],
    author: tune.composer,
    lines: [...tuneLine(pack), ...lines],
  };
  const blank = frontPages({ ...front, contents: entriesFrom(sections, 1) }, layout);
  const pages = frontPages({ ...front, contents: entriesFrom(sections, blank.length + 1) }, layout);
  return numbered([{ title: words.lesson, pages }, ...sections], layout);
};

const entriesFrom = (sections: readonly Section[], first: number): readonly Entry[] => {
  let page = first;
  return sections.map(({ title, pages }) => {
    const entry = { title, page };
    page += pages.length;
    return entry;
  });
};

/** The pages of all sections, counted through; the cover carries no number. */
const numbered = (sections: readonly Section[], layout: Layout): readonly Page[] => {
  const of = sections.reduce((sum, { pages }) => sum + pages.length, 0);
  let number = 0;
  return sections.flatMap(({ title, pages }) =>
    pages.map((page, index): Page => {
      number += 1;
      const groups = page.groups.map(withoutOwnNumber);
      const mark = number === 1 ? [] : [numberGroup(number, layout)];
      return {
        ...page,
        number,
        of,
        groups: [...groups, ...mark],
        ...(index === 0 && { section: title }),
      };
    }),
  );
};

/** A running head, which follows a first page, ends in the number of its page within the part. */
const withoutOwnNumber = (group: Group): Group =>
  /^heading-(?!1$)/.test(group.id) ? { ...group, marks: group.marks.slice(0, -1) } : group;

/** At the foot of the page, at the right. */
const numberGroup = (number: number, layout: Layout): Group => {
  const { width, height, margin } = pageFrame({ ...layout, sheet: 'tab' });
  const style = { role: 'heading', face: 'serif', size: NUMBER_SIZE } as const;
  return {
    id: 'page-number',
    className: 'footer',
    marks: anchoredText(String(number), style, width - margin, height - margin - 0.7, 'end'),
  };
};
