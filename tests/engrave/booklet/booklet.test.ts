import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bookletPages, type Section } from '../../../src/engrave/booklet/booklet.ts';
import { partPages } from '../../../src/engrave/booklet/parts.ts';
import { flow, proseLines } from '../../../src/engrave/booklet/prose.ts';
import { bounds } from '../../../src/engrave/drawing/mark.ts';
import type { Page } from '../../../src/engrave/page.ts';
import { type Block, paragraph } from '../../../src/lesson/pack/prose.ts';
import { exampleTune, packOf, windowOf } from '../../support/pack.ts';

const LAYOUT = { footer: 'A class · A lesson' };

const textsOf = (page: Page): readonly string[] =>
  page.groups.flatMap(({ marks }) => marks.flatMap(mark => (mark.kind === 'text' ? [mark.text] : [])));

describe('a booklet', () => {
  const { pack } = packOf(exampleTune('michael-row-the-boat-ashore'), [windowOf(4, 8)]);
  const booklets = pack.editions.map(edition => {
    const sections = edition.parts.map(
      (part): Section => ({ title: part.title, pages: partPages(part, LAYOUT).pages }),
    );
    return { sections, pages: bookletPages(pack, edition, sections, LAYOUT) };
  });

  it('holds every page of every part, after a front, in one numbering', () => {
    for (const { sections, pages } of booklets) {
      const parts = sections.reduce((sum, section) => sum + section.pages.length, 0);
      expect(pages.length).toBeGreaterThan(parts);
      expect(pages.map(({ number }) => number)).toEqual(pages.map((_, index) => index + 1));
      expect(pages.every(({ of }) => of === pages.length)).toBe(true);
      expect(pages.filter(page => page.section).map(page => page.section)).toEqual([
        pack.words.lesson,
        ...sections.map(({ title }) => title),
      ]);
    }
  });

  it('says in its contents on which page each part begins', () => {
    for (const { sections, pages } of booklets) {
      const words = textsOf(pages[0]!).filter(text => text !== '.');
      const from = words.indexOf('booklet');
      for (const { title } of sections) {
        const first = pages.find(page => page.section === title)!;
        const at = words.findIndex(
          (_, index) => index > from && words.slice(index).join(' ').startsWith(title),
        );
        const number = words.slice(at).find(word => /^\d+$/.test(word));
        expect(Number(number), title).toBe(first.number);
      }
    }
  });

  it('numbers every page but the cover, once, and where the paper shows it', () => {
    for (const { pages } of booklets) {
      for (const page of pages) {
        const own = page.groups.filter(({ id }) => id === 'page-number');
        expect(own).toHaveLength(page.number === 1 ? 0 : 1);
        for (const { marks } of own) {
          expect(textsOf({ ...page, groups: own })).toEqual([String(page.number)]);
          for (const mark of marks) expect(bounds(mark).bottom).toBeLessThan(page.height - 12.7);
        }
        for (const group of page.groups.filter(({ id }) => /^heading-/.test(id) && !id.endsWith('-1')))
          expect(textsOf({ ...page, groups: [group] }).join('')).not.toMatch(/\d$/);
      }
    }
  });

  it('says at the foot of each page which part it belongs to, as the contents name it', () => {
    for (const { pages } of booklets) {
      let part: string | undefined;
      for (const page of pages) {
        part = page.section ?? part;
        const foot = page.groups.filter(({ id }) => id.startsWith('footer-'));
        const words = textsOf({ ...page, groups: foot }).join(' ');
        expect(words).toContain(page.number === 1 ? LAYOUT.footer : `${part} · ${LAYOUT.footer}`);
      }
    }
  });

  it('says on the front and on every page of the tune who made it', () => {
    const { pack } = packOf(exampleTune('amazing-grace'), [windowOf(4, 8)]);
    for (const edition of pack.editions) {
      const sections = edition.parts.map(
        (part): Section => ({ title: part.title, pages: partPages(part, LAYOUT).pages }),
      );
      const [front, ...pages] = bookletPages(pack, edition, sections, LAYOUT);
      const ofTune = pages.filter(({ title }) => title === 'Amazing Grace');
      expect(ofTune.length).toBeGreaterThanOrEqual(6);
      for (const page of [front!, ...ofTune]) {
        const words = textsOf(page).join(' ');
        expect(words).toContain('Traditional');
        expect(words).toContain('Words: John Newton');
        if (page !== front) expect(words).toContain('Public domain');
      }
    }
  });

  it('keeps text off the margins', () => {
    for (const { pages } of booklets)
      for (const page of pages)
        for (const mark of page.groups.flatMap(({ marks }) => marks)) {
          const { left, right, top, bottom } = bounds(mark);
          expect(Math.min(left, top, page.width - right, page.height - bottom)).toBeGreaterThan(11);
        }
  });
});

describe('text', () => {
  const word = fc.stringMatching(/^[a-zA-ZäöüéèñçA-Z0-9,.]{1,12}$/);
  const paragraphs = fc.array(
    fc.array(word, { minLength: 1, maxLength: 60 }).map((words): Block => paragraph(words.join(' '))),
    { minLength: 1, maxLength: 6 },
  );
  const blocks = fc.oneof(
    paragraphs,
    paragraphs.map((all): Block[] => [{ kind: 'list', from: 1, items: all.map(each => [each]) }]),
    paragraphs.map((all): Block[] => [{ kind: 'quote', blocks: all }]),
  );
  const style = { size: 4.5, width: 120 };
  const lettersOf = (list: readonly Block[]): string =>
    list
      .map(block => {
        if (block.kind === 'list')
          return block.items.map((item, index) => `${index + 1}.${lettersOf(item)}`).join('');
        return block.kind === 'quote'
          ? lettersOf(block.blocks)
          : block.words.map(({ text }) => text).join('');
      })
      .join('')
      .replace(/\s/g, '');

  it('is set whole, in order, and within its column', () => {
    fc.assert(
      fc.property(blocks, list => {
        const lines = proseLines(list, style);
        const set = lines.flatMap(({ marks }) => marks.map(mark => (mark.kind === 'text' ? mark.text : '')));
        expect(set.join('')).toBe(lettersOf(list));
        for (const { marks } of lines)
          for (const mark of marks) expect(bounds(mark).right).toBeLessThanOrEqual(style.width + 0.5);
      }),
      { numRuns: 150 },
    );
  });

  it('flows over pages without losing a line or leaving its room', () => {
    fc.assert(
      fc.property(blocks, fc.integer({ min: 20, max: 80 }), (list, height) => {
        const lines = proseLines(list, style);
        const column = { left: 15, top: 30, bottom: 30 + height };
        const pages = flow(lines, () => column);
        expect(pages.flat()).toHaveLength(lines.flatMap(({ marks }) => marks).length);
        for (const mark of pages.flat()) {
          expect(bounds(mark).top).toBeGreaterThanOrEqual(column.top - 0.1);
          expect(bounds(mark).bottom).toBeLessThanOrEqual(column.bottom + style.size * 0.5);
        }
      }),
      { numRuns: 150 },
    );
  });

  it('does not end a page with a heading', () => {
    const list: Block[] = [
      ...Array.from({ length: 4 }, () => paragraph('one line')),
      { kind: 'heading', words: [{ text: 'Heading' }] },
      paragraph('under it'),
    ];
    for (let height = 20; height < 70; height++) {
      const pages = flow(proseLines(list, style), () => ({ left: 0, top: 0, bottom: height }));
      const page = pages.find(marks => marks.some(mark => mark.kind === 'text' && mark.text === 'Heading'))!;
      expect(page.some(mark => mark.kind === 'text' && mark.text === 'under')).toBe(true);
    }
  });
});
