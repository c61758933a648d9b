/** The page for the class, read with a plain XML parser where that can be, and as text. */
import { describe, expect, it } from 'vitest';
import { indexToHtml } from '../../src/emit/html.ts';
import { partPages } from '../../src/engrave/booklet/parts.ts';
import { paragraph } from '../../src/lesson/pack/prose.ts';
import { exampleTune, packOf, windowOf } from '../support/pack.ts';

const { pack } = packOf(exampleTune('michael-row-the-boat-ashore'), [windowOf(4, 8)]);

const page = (lesson: string, text: string): string =>
  indexToHtml({
    language: 'en',
    lesson,
    group: 'A <class> & "club"',
    lines: ['A tune'],
    notes: [{ kind: 'heading', words: [{ text: 'Notes' }] }, paragraph(text)],
    rights: pack.tune.rights,
    missing: [],
    editions: pack.editions.map(({ arrangement: { instrument }, parts, differences }) => ({
      id: instrument.id,
      name: instrument.name,
      booklet: { href: 'all.pdf', text: 'Booklet' },
      parts: parts.map(part => ({
        title: part.title,
        summary: part.name,
        pages: partPages(part, {}).pages,
        words: [],
        files: [{ href: `${part.name}.pdf`, text: part.title }],
      })),
      files: [],
      differences,
    })),
  });

const html = page('Frets 4 to 8', 'Read it.');

const all = (pattern: RegExp): readonly string[] => [...html.matchAll(pattern)].map(match => match[1]!);

describe('the page for the class', () => {
  it('runs nothing and fetches nothing', () => {
    expect(html).not.toMatch(/<(script|link|iframe|object|embed|img|base|form|audio|video)\b/i);
    expect(html).not.toMatch(/\son\w+=/i);
    expect(html).not.toMatch(/@import|url\((?!data:font\/woff2;base64,)/);
    expect(html).toContain("default-src 'none'");
    for (const href of all(/href="([^"]*)"/g)) expect(href).toMatch(/^#|^[\w.-]+\.pdf$/);
  });

  it('refers to ids that are there, and to each but once defined', () => {
    const ids = all(/\sid="([^"]*)"/g);
    expect(new Set(ids).size).toBe(ids.length);
    for (const href of all(/href="#([^"]*)"/g)) expect(ids).toContain(href);
    for (const id of all(/aria-labelledby="([^"]*)"/g)) expect(ids).toContain(id);
  });

  it('has a language, one title, and headings in order', () => {
    expect(html).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(html).toContain('<meta name="viewport" content="width=device-width, initial-scale=1">');
    const levels = all(/<h([1-6])\b/g).map(Number);
    expect(levels.filter(level => level === 1)).toHaveLength(1);
    levels.forEach((level, index) => {
      if (index > 0) expect(level - levels[index - 1]!).toBeLessThanOrEqual(1);
    });
  });

  it('names every drawing for those who do not see it', () => {
    const drawings = all(/<svg role="img" aria-label="([^"]*)"/g);
    const pages = pack.editions.flatMap(({ parts }) => parts.flatMap(part => partPages(part, {}).pages));
    expect(drawings).toHaveLength(pages.length);
    expect(new Set(drawings).size).toBe(drawings.length);
    expect(drawings).toContain('Michael, Row the Boat Ashore, tab, for Ukulele, low G');
  });

  it('shows what is written, never as markup', () => {
    const nasty = page('<script>alert("1")</script>', '</p><img src=x onerror=alert(1)>');
    expect(nasty).not.toMatch(/<(script|img)\b/i);
    expect(nasty).toContain('<h1>&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;</h1>');
    expect(nasty).toContain('A &lt;class&gt; &amp; &quot;club&quot;');
  });

  it('prints a page of a sheet on a page, inside margins that every machine prints', () => {
    const [, print] = html.split('@media print{');
    const margins = /@page\{margin:(\d+)mm (\d+)mm\}/.exec(print!)!.slice(1).map(Number);
    for (const margin of margins) expect(margin).toBeGreaterThanOrEqual(12.7);
    expect(print).toContain('figure+figure{break-before:page}');
    // Heading and drawing share a page of US Letter, the shorter paper, 279.4 mm.
    const height = Number(/max-height:(\d+)mm/.exec(print!)![1]);
    expect(height + 2 * margins[0]!).toBeLessThan(279.4 - 15);
  });

  it('is the same every time', () => {
    expect(page('Frets 4 to 8', 'Read it.')).toBe(html);
  });
});
