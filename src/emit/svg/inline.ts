/**
 * Pages as drawings inside one HTML page: fonts and glyphs that they share are written once for all, and
 * each shows what is on it, without the paper round it and the foot.
 */
import { type Box, union } from '../../engrave/drawing/box.ts';
import { bounds, type Mark } from '../../engrave/drawing/mark.ts';
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

/** Around the ink, mm. */
const EDGE = 4;

const marksOn = ({ groups }: Page): readonly Mark[] =>
  groups.filter(({ className }) => className !== 'footer').flatMap(({ marks }) => marks);

const inkOn = (page: Page): Box =>
  union(marksOn(page).map(bounds)) ?? { left: 0, top: 0, right: page.width, bottom: page.height };

/** Drawings of these pages, and of no others; all equally wide, so that their staves are equally high. */
export const drawingsOf = (pages: readonly Page[]): Drawings => {
  const defined: Defined = new Map();
  const drawn = new Map(
    pages.map(page => [page, { svg: marksToSvg(marksOn(page), defined), ink: inkOn(page) }]),
  );
  const inks = [...drawn.values()].map(({ ink }) => ink);
  const left = Math.min(...inks.map(ink => ink.left)) - EDGE;
  const width = Math.max(...inks.map(ink => ink.right)) + EDGE - left;
  const texts = pages.flatMap(marksOn).flatMap(mark => (mark.kind === 'text' ? [mark] : []));
  return {
    style: `${fontFaces(texts)}svg text{white-space:pre;font-kerning:none;font-variant-ligatures:none}\n`,
    definitions: element(
      'svg',
      { width: 0, height: 0, style: 'position:absolute', 'aria-hidden': 'true', focusable: 'false' },
      element('defs', {}, [...defined.values()].join('')),
    ),
    draw: (page, alternative) => {
      const { svg, ink } = drawn.get(page)!;
      const top = ink.top - EDGE;
      const height = ink.bottom + EDGE - top;
      return element(
        'svg',
        {
          role: 'img',
          'aria-label': alternative,
          viewBox: [left, top, width, height].map(number).join(' '),
        },
        svg,
      );
    },
  };
};
