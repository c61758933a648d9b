/** Drawn pages as files: one row a format that shows pages, whatever is on them. */
import type { Page } from '../engrave/page.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { FontFile } from './type/font-file.ts';
import type { Fonts } from './type/fonts.ts';

/** What an output has become. */
export interface Rendered {
  /** The contents of one file a page; formats that hold all pages in one have one. */
  readonly pages: readonly (string | Uint8Array)[];
  /** What it could not show. */
  readonly diagnostics: readonly Diagnostic[];
}

/** What pictures and files of pages need to know beyond the pages. */
export interface PageStyle {
  /** Pixels an inch, of pictures. */
  readonly dpi: number;
  /** Pictures without their white paper. */
  readonly transparent: boolean;
  /** A font for characters that the carried ones lack. */
  readonly font: FontFile | undefined;
}

/** The formats that show pages. */
export type PageFormat = 'svg' | 'pdf' | 'png';

/** Writes pages in each of these formats. Throws a Refusal where the font that is given cannot be used. */
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

/** Whether a format shows pages. */
export const isPageFormat = (name: string): name is PageFormat => name in PAGE_WRITERS;

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
