import fc from 'fast-check';
import { SaxesParser } from 'saxes';
import { describe, expect, test } from 'vitest';
import { number, text } from '../../src/emit/svg/writer.ts';
import { pageToSvg } from '../../src/emit/svg.ts';
import { sheet, tuneOf } from '../engrave/sheets.ts';
import { tunes } from './text/arbitrary.ts';

interface Tag {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

/** Every element of a document; throws where it is not well-formed XML. */
function tagsOf(svg: string): Tag[] {
  const tags: Tag[] = [];
  const parser = new SaxesParser({ xmlns: true });
  parser.on('opentag', ({ name, attributes }) =>
    tags.push({
      name,
      attributes: Object.fromEntries(Object.entries(attributes).map(([key, { value }]) => [key, value])),
    }),
  );
  parser.write(svg).close();
  return tags;
}

const song = tuneOf(
  [
    { notes: 'C4q/Row, D4q E4q~/row E4q', chords: { 0: 'C', 2: 'G7' } },
    { notes: 'F#4q./crème- G4e/& A4h/<end>' },
  ],
  { title: 'Tea & <Toast>', composer: 'Trad.' },
);

describe('an SVG page', () => {
  test('is well-formed, with unique ids and no reference that leads nowhere, for any tune', () => {
    fc.assert(
      fc.property(tunes, tune => {
        for (const page of sheet(tune).pages) {
          const tags = tagsOf(pageToSvg(page));
          const ids = tags.flatMap(({ attributes }) => attributes.id ?? []);
          expect(new Set(ids).size).toBe(ids.length);
          for (const { attributes } of tags)
            if (attributes.href) expect(ids).toContain(attributes.href.slice(1));
          expect(tags.some(({ name }) => name === 'script')).toBe(false);
        }
      }),
      { numRuns: 20 },
    );
  });

  test('is as large as its paper, in millimetres (A4: ISO 216; Letter: ANSI/ASME Y14.1)', () => {
    const root = (paper: 'a4' | 'letter') =>
      tagsOf(pageToSvg(sheet(song, { paper }).pages[0]!))[0]!.attributes;
    expect(root('a4')).toMatchObject({ width: '210mm', height: '297mm', viewBox: '0 0 210 297' });
    expect(root('letter')).toMatchObject({ width: '215.9mm', height: '279.4mm', viewBox: '0 0 215.9 279.4' });
  });

  test('has a title, a description, and a group for each measure', () => {
    const svg = pageToSvg(sheet(song).pages[0]!);
    expect(svg).toContain('<title>Tea &amp; &lt;Toast&gt;</title>');
    expect(svg).toContain('<desc>');
    const groups = tagsOf(svg).filter(({ attributes }) => attributes.class === 'measure');
    expect(groups.map(({ attributes }) => attributes.id)).toEqual(['measure-1', 'measure-2']);
  });

  test('keeps words as text', () => {
    const svg = pageToSvg(sheet(song).pages[0]!);
    for (const word of ['Row,', 'crème', '&amp;', '&lt;end&gt;', 'Tea &amp; &lt;Toast&gt;'])
      expect(svg).toContain(`>${word}</text>`);
  });

  test('draws a letter with a mark as the fonts have it, however it is spelt', () => {
    const drawn = (text: string) => {
      const svg = pageToSvg(sheet({ ...song, title: text }).pages[0]!);
      return svg.slice(svg.indexOf('<style>'));
    };
    const composed = 'Ha\u01e7\u0131 K\u016b';
    expect(drawn(composed.normalize('NFD'))).toBe(drawn(composed));
    expect(drawn(composed)).toContain(`>${composed}</text>`);
  });

  test('carries the fonts of its words, and only the blocks that they need', () => {
    const faces = (tune: typeof song) =>
      [
        ...pageToSvg(sheet(tune).pages[0]!).matchAll(/@font-face\{font-family:'([^']+)';font-weight:(\d+)/g),
      ].map(([, family, weight]) => `${family} ${weight}`);
    const plain = tuneOf([{ notes: 'C4w' }]);
    expect(faces(plain)).toEqual([
      'Source Serif 4 400',
      'Source Serif 4 600',
      'Source Serif 4 400',
      'Source Sans 3 600',
    ]);
    expect(faces(song).filter(face => face === 'Source Serif 4 400').length).toBe(3);
    expect(pageToSvg(sheet(song).pages[0]!).length).toBeLessThan(80_000);
  });

  test('is the same each time', () => {
    expect(pageToSvg(sheet(song).pages[0]!)).toBe(pageToSvg(sheet(song).pages[0]!));
  });
});

describe('the writer', () => {
  test('writes numbers short, and refuses what is none', () => {
    expect([0.5, -0.25, 12, 1 / 3, -0.0001].map(number)).toEqual(['.5', '-.25', '12', '.333', '0']);
    expect(() => number(Number.NaN)).toThrow('no number');
    expect(() => number(Infinity)).toThrow('no number');
  });

  test('escapes text and drops what XML cannot hold', () => {
    expect(text('a<b>&"c"\u0000\u0007')).toBe('a&lt;b&gt;&amp;&quot;c&quot;');
  });
});
