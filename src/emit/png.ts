/**
 * A page as PNG. The rasteriser is given the marks as SVG writes them, and text as outlines of the
 * sheet's own fonts: what the machine has installed changes nothing.
 */
import type { Resvg } from '@resvg/resvg-js';
import type { Page } from '../engrave/page.ts';
import { Refusal } from '../score/diagnostic.ts';
import { withResolution } from './png/resolution.ts';
import { textToOutlines } from './png/text.ts';
import { type Defined, marksToSvg } from './svg/marks.ts';
import { element, number } from './svg/writer.ts';
import type { Fonts } from './type/fonts.ts';

const MM_PER_INCH = 25.4;

export interface Picture {
  /** Pixels an inch. */
  readonly dpi: number;
  /** Without the white paper. */
  readonly transparent: boolean;
}

/** Paints each page. Throws a Refusal on a machine for which the rasteriser is not built. */
export async function pagesToPng(
  pages: readonly Page[],
  fonts: Fonts,
  { dpi, transparent }: Picture,
): Promise<readonly Uint8Array[]> {
  const Painter = await rasteriser();
  const paper = transparent ? {} : { background: '#fff' };
  return pages.map(page => {
    const painter = new Painter(pageToOutlines(page, fonts, dpi), {
      font: { loadSystemFonts: false },
      logLevel: 'off',
      ...paper,
    });
    return withResolution(painter.render().asPng(), dpi);
  });
}

async function rasteriser(): Promise<typeof Resvg> {
  try {
    return (await import('@resvg/resvg-js')).Resvg;
  } catch (error) {
    throw new Refusal({
      severity: 'error',
      code: 'png-unavailable',
      message: `the library that paints PNG does not load here: ${error instanceof Error ? error.message.split('\n')[0] : error}`,
      hint: 'install fretward again with its optional dependencies, or use --to svg or --to pdf',
    });
  }
}

/** The page as SVG of paths alone, as large as its picture in whole pixels. */
function pageToOutlines({ width, height, groups }: Page, fonts: Fonts, dpi: number): string {
  const defined: Defined = new Map();
  const body = groups
    .flatMap(({ marks }) => marks)
    .map(mark => (mark.kind === 'text' ? textToOutlines(mark, fonts, defined) : marksToSvg([mark], defined)))
    .join('');
  const pixels = (mm: number) => Math.round((mm / MM_PER_INCH) * dpi);
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: pixels(width),
      height: pixels(height),
      viewBox: `0 0 ${number(width)} ${number(height)}`,
    },
    element('defs', {}, [...defined.values()].join('')) + body,
  );
}
