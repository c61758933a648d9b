/** The pages of each kind of content of a pack: one row a kind. */

import type { Content } from '../../lesson/pack/make.ts';
import type { Part } from '../../lesson/pack/pack.ts';
import { creditLines } from '../../score/credits.ts';
import { engraveChart } from '../chart/chart.ts';
import { type Engraving, engrave } from '../engrave.ts';
import { engraveNeck, type NeckOptions } from '../neck/page.ts';
import { editionLines } from '../page/heading.ts';
import type { Page } from '../page.ts';
import { textPages } from './sheet.ts';

/** How the sheets of a pack look. */
export type PartOptions = NeckOptions;

const ENGRAVERS: {
  readonly [K in Content['kind']]: (
    content: Extract<Content, { kind: K }>,
    options: PartOptions,
  ) => Engraving;
} = {
  music: ({ tune, arrangement, sheet, of }, options) => {
    if (of === 'tune') return engrave(tune, arrangement, { ...options, sheet });
    const own = withoutTitle(options);
    if (of === 'drill') return engrave(tune, arrangement, { ...own, sheet });
    return engrave(tune, arrangement, {
      ...own,
      sheet,
      fingers: own.fingers ?? 'all',
      positions: own.positions ?? true,
    });
  },
  chart: ({ chart, shapes }, options) => plain(engraveChart(chart, shapes, options)),
  neck: ({ tune, map }, options) => plain(engraveNeck(map, tune, options)),
  cues: ({ cues: { tune, arrangement }, words }, options) =>
    plain(
      textPages(
        {
          words: {
            title: options.title ?? tune.title ?? '',
            subtitle: options.subtitle,
            left: editionLines(tune, arrangement, false),
            right: creditLines(tune),
          },
          foot: tune.rights,
          author: tune.composer,
          blocks: words,
        },
        options,
      ),
    ),
};

const plain = (pages: readonly Page[]): Engraving => ({ pages, diagnostics: [] });

/** What is said about the tune is not said about what the lesson makes. */
const withoutTitle = ({ title: _, subtitle: __, ...rest }: PartOptions): PartOptions => rest;

/** The pages of a part, counted through, as a sheet that stands alone. Its name stands first at their foot. */
export const partPages = ({ contents, title }: Part, options: PartOptions): Engraving => {
  const footer = options.footer?.trim();
  const named = footer ? { ...options, footer: `${title} · ${footer}` } : options;
  const made = contents.map(content =>
    (ENGRAVERS[content.kind] as (content: Content, options: PartOptions) => Engraving)(content, named),
  );
  const pages = made.flatMap(each => each.pages);
  return {
    pages: pages.map((page, index) => ({ ...page, number: index + 1, of: pages.length })),
    diagnostics: made.flatMap(each => each.diagnostics),
  };
};
