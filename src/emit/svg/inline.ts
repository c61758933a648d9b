/** Pages as drawings inside one HTML page: fonts and glyphs that they share are written once for all. */
import type { Mark } from '../../engrave/drawing/mark.ts';
import type { Page } from '../../engrave/page.ts';
import { fontFaces } from './font-faces.ts';
import { type Defined, marksToSvg } from './marks.ts';
import { element, number } from './writer.ts';

export interface Drawings {
  /** Rules for the page's style sheet. */
  readonly style: string;
  /** What the drawings refer to; stands once in the page, before them, and takes no room. */
  readonly definitions: string;
  /** One of the pages; `alternative` says what it is to those who do not see it. */
  readonly draw: (page: Page, alternative: string) => string;
}

const marksOn = ({ groups }: Page): readonly Mark[] => groups.flatMap(({ marks }) => marks);

/** Drawings of these pages, and of no others. */
export const drawingsOf = (pages: readonly Page[]): Drawings => {
  const defined: Defined = new Map();
  const drawn = new Map(pages.map(page => [page, marksToSvg(marksOn(page), defined)]));
  const texts = pages.flatMap(marksOn).flatMap(mark => (mark.kind === 'text' ? [mark] : []));
  return {
    style: `${fontFaces(texts)}svg text{white-space:pre;font-kerning:none;font-variant-ligatures:none}\n`,
    definitions: element(
      'svg',
      { width: 0, height: 0, style: 'position:absolute', 'aria-hidden': 'true', focusable: 'false' },
      element('defs', {}, [...defined.values()].join('')),
    ),
    draw: (page, alternative) =>
      element(
        'svg',
        {
          role: 'img',
          'aria-label': alternative,
          viewBox: `0 0 ${number(page.width)} ${number(page.height)}`,
        },
        drawn.get(page),
      ),
  };
};
