/** Drawn pages as files: one row a format that shows pages, whatever is on them. */
import type { Page } from '../engrave/page.ts';
import type { FontFile, Rendered } from './formats.ts';
import type { Fonts } from './type/fonts.ts';

/** What pictures and files of pages need to know beyond the pages. */
export interface PageStyle {
  readonly dpi: number;
  readonly transparent: boolean;
  readonly font: FontFile | undefined;
}

export type PageFormat = 'svg' | 'pdf' | 'png';

export const PAGE_WRITERS: Readonly<
  Record<PageFormat, (pages: readonly Page[], style: PageStyle) => Promise<Rendered>>
> = {
  svg: async pages => {
    const [{ pageToSvg }, { leftToTheReader }] = await Promise.all([
      import('./svg.ts'),
      import('./type/missing.ts'),
    ]);
    return { pages: pages.map(pageToSvg), diagnostics: leftToTheReader(pages) };
  },
  pdf: async (pages, style) => {
    const { fonts, diagnostics } = await typeset(pages, style);
    const { pagesToPdf } = await import('./pdf.ts');
    return { pages: [await pagesToPdf(pages, fonts)], diagnostics };
  },
  png: async (pages, style) => {
    const { fonts, diagnostics } = await typeset(pages, style);
    const { pagesToPng } = await import('./png.ts');
    return { pages: await pagesToPng(pages, fonts, style), diagnostics };
  },
};

/** The fonts that pages are set in, for output that has to hold them, and what those cannot show. */
async function typeset(
  pages: readonly Page[],
  { font }: PageStyle,
): Promise<{ readonly fonts: Fonts; readonly diagnostics: Rendered['diagnostics'] }> {
  const [{ fontsWith }, { notShown }] = await Promise.all([
    import('./type/fonts.ts'),
    import('./type/missing.ts'),
  ]);
  const fonts = fontsWith(font);
  return { fonts, diagnostics: notShown(pages, fonts, font?.name) };
}
