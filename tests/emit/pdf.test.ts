/** PDF, read back with an independent library. */
import { afterEach, describe, expect, it, vi } from 'vitest';
import { pagesToPdf } from '../../src/emit/pdf.ts';
import { fontsWith } from '../../src/emit/type/fonts.ts';
import type { Page } from '../../src/engrave/engrave.ts';
import { textWidth } from '../../src/engrave/font/face.ts';
import { charactersOf, fontsOf, openPdf, sizeOf } from './pdf/reading.ts';
import { CYRILLIC, EXAMPLES, example, pagesOf, repeated, textsOf } from './typeset.ts';

const written = async (pages: readonly Page[], font = fontsWith(undefined)) =>
  openPdf(await pagesToPdf(pages, font));

describe.each(EXAMPLES)('%s as PDF', name => {
  const tune = example(name);
  const pages = pagesOf(tune);

  it('has all its pages in one file', async () => {
    expect((await written(pages)).countPages()).toBe(pages.length);
  });

  it('has every letter and figure as text, where the drawing has it', async () => {
    const document = await written(pages);
    pages.forEach((page, index) => {
      const characters = charactersOf(document, index);
      const marks = textsOf(page);
      for (const { text, face, size, x, y, anchor } of marks) {
        const width = textWidth(text, face, size);
        let at = anchor === 'start' ? x : anchor === 'middle' ? x - width / 2 : x - width;
        for (const each of text) {
          const close = characters.some(
            found => found.character === each && Math.hypot(found.x - at, found.y - y) < 0.02,
          );
          if (each.trim() !== '') expect(close, `${each} of "${text}" at ${at}, ${y}`).toBe(true);
          at += textWidth(each, face, size);
        }
      }
      const letters = marks.map(({ text }) => text.replace(/\s/g, '').length);
      expect(characters).toHaveLength(letters.reduce((sum, count) => sum + count, 0));
    });
  });

  it('embeds a subset of each of its fonts, with its Unicode', async () => {
    const fonts = fontsOf(await written(pages), 0);
    expect(fonts.length).toBeGreaterThanOrEqual(2);
    for (const { name: font, embedded, mapped } of fonts) {
      // ISO 32000-1, 9.6.4: a subset's name starts with six capitals and a plus sign.
      expect(font).toMatch(/^[A-Z]{6}\+Source/);
      expect({ font, embedded, mapped }).toEqual({ font, embedded: true, mapped: true });
    }
  });
});

describe('the PDF file', () => {
  afterEach(() => {
    vi.useRealTimers();
  });

  it.each([
    // ISO 216: 210 × 297 mm; ANSI/ASME Y14.1: 8½ × 11 in. A point is 1/72 in.
    { paper: 'a4', size: [595.28, 841.89] },
    { paper: 'letter', size: [612, 792] },
  ] as const)('has pages of $paper', async ({ paper, size }) => {
    const document = await written(pagesOf(example('amazing-grace'), { paper }));
    const [width, height] = sizeOf(document, 0);
    expect(width).toBeCloseTo(size[0], 1);
    expect(height).toBeCloseTo(size[1], 1);
  });

  it('says what it is, and no date', async () => {
    const tune = example('amazing-grace', { title: 'Żółć & <Калинка>', composer: 'Traditional' });
    const document = await written(pagesOf(tune));
    const info = (key: string) => document.getMetaData(`info:${key}`);
    expect(info('Title')).toBe('Żółć & <Калинка>');
    expect(info('Author')).toBe('Traditional');
    expect(info('Keywords')).toContain('notation over tablature');
    expect(info('Keywords')).toContain('Ukulele');
    for (const date of ['CreationDate', 'ModDate'])
      expect(document.getTrailer().get('Info', date).isNull()).toBe(true);
  });

  it('is the same whenever it is made', async () => {
    const pages = pagesOf(example('row-row-row-your-boat'));
    const at = async (time: string) => {
      vi.useFakeTimers({ now: new Date(time), toFake: ['Date'] });
      return pagesToPdf(pages, fontsWith(CYRILLIC));
    };
    const first = await at('2001-02-03T04:05:06Z');
    expect(Buffer.compare(first, await at('2031-12-31T23:59:59Z'))).toBe(0);
  });

  it('lists its systems as bookmarks', async () => {
    const pages = pagesOf(example('amazing-grace'));
    const outline = (await written(pages)).loadOutline() ?? [];
    const labels = pages[0]!.groups.flatMap(({ label }) => label ?? []);
    expect(labels.length).toBeGreaterThan(1);
    expect(labels[0]).toMatch(/^Measures? \d+/);
    expect(outline.map(({ title }) => title)).toEqual(labels);
  });

  it('lists the systems of several pages page by page', async () => {
    const pages = pagesOf(repeated(example('amazing-grace'), 5));
    expect(pages.length).toBeGreaterThan(1);
    const outline = (await written(pages)).loadOutline() ?? [];
    expect(outline.map(({ title, page }) => [title, page])).toEqual(
      pages.map(({ number }) => [`Page ${number}`, number - 1]),
    );
    for (const [index, { down }] of outline.entries()) {
      expect(down?.map(({ title }) => title)).toEqual(
        pages[index]!.groups.flatMap(({ label }) => label ?? []),
      );
      expect(down?.every(({ page }) => page === index)).toBe(true);
    }
  });

  it('sets what the carried fonts lack in the font given, and embeds it', async () => {
    const pages = pagesOf(example('amazing-grace', { title: 'Калинка Kalinka' }));
    const document = await written(pages, fontsWith(CYRILLIC));
    const text = charactersOf(document, 0).map(({ character }) => character);
    expect(text.join('')).toContain('КалинкаKalinka');
    expect(fontsOf(document, 0).every(({ embedded }) => embedded)).toBe(true);
  });

  it('is not written from coordinates that are no numbers', async () => {
    const [page] = pagesOf(example('amazing-grace'));
    const line = { kind: 'line', role: 'bar', x1: 0, y1: 0, x2: Number.NaN, y2: 1, thickness: 1 } as const;
    const broken = { ...page!, groups: [{ id: 'x', className: 'system', marks: [line] }] } as const;
    await expect(pagesToPdf([broken], fontsWith(undefined))).rejects.toThrow(/number/);
  });
});
