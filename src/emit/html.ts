/**
 * The page for the class: one HTML file that needs nothing else. Sheets stand in it as drawings, with the
 * fonts and glyphs that they share written once; links lead to the files beside it, and the page reads
 * the same without them, so that it can be sent by itself. No script, and nothing is fetched.
 */
import type { Page } from '../engrave/page.ts';
import type { Block } from '../lesson/pack/prose.ts';
import { proseToHtml } from './html/prose.ts';
import { STYLE } from './html/style.ts';
import { type Html, lines, raw, tag } from './html/writer.ts';
import { type Drawings, drawingsOf } from './svg/inline.ts';

export interface FileLink {
  /** Relative to the page. */
  readonly href: string;
  readonly text: string;
}

interface IndexPart {
  readonly title: string;
  /** What a page of it is, for those who do not see it: "notation alone". */
  readonly summary: string;
  /** Drawn into the page, unless it is made of words. */
  readonly pages: readonly Page[];
  readonly words: readonly Block[];
  readonly files: readonly FileLink[];
}

export interface IndexEdition {
  /** Of file names and places on the page. */
  readonly id: string;
  readonly name: string;
  readonly booklet: FileLink;
  readonly parts: readonly IndexPart[];
  /** Of the tune itself. */
  readonly files: readonly FileLink[];
  readonly differences: readonly Block[];
}

/** An edition that there is not. */
interface IndexMissing {
  readonly id: string;
  readonly name: string;
  readonly reasons: readonly Block[];
}

export interface Index {
  /** BCP 47 tag of the language that the teacher writes in. */
  readonly language: string;
  readonly lesson: string;
  readonly group: string | undefined;
  /** Under the title: tune, writers. */
  readonly lines: readonly string[];
  readonly notes: readonly Block[];
  readonly rights: readonly string[];
  readonly editions: readonly IndexEdition[];
  readonly missing: readonly IndexMissing[];
}

/** The whole page as text. */
export const indexToHtml = (index: Index): string => {
  const pages = index.editions.flatMap(({ parts }) => parts.flatMap(part => part.pages));
  const drawings = drawingsOf(pages);
  const { language, lesson, group } = index;
  return `<!doctype html>\n${
    tag('html', { lang: language }, [
      tag('head', {}, [
        tag('meta', { charset: 'utf-8' }),
        tag('meta', { name: 'viewport', content: 'width=device-width, initial-scale=1' }),
        tag('title', {}, group ? `${lesson} – ${group}` : lesson),
        // Whatever is in the page, nothing is fetched and nothing runs.
        tag('meta', {
          'http-equiv': 'Content-Security-Policy',
          content: "default-src 'none'; style-src 'unsafe-inline'; font-src data:; base-uri 'none'",
        }),
        tag('style', {}, raw(STYLE + drawings.style)),
      ]),
      tag('body', {}, [
        tag('a', { class: 'skip', href: '#sheets' }, 'To the sheets'),
        raw(drawings.definitions),
        raw('\n'),
        header(index),
        raw('\n'),
        tag(
          'main',
          { id: 'sheets' },
          lines([
            ...index.editions.map(each => edition(each, index, drawings)),
            ...index.missing.map(each => section(each, [proseToHtml(each.reasons, 'h3')])),
          ]),
        ),
        ...(index.rights.length > 0
          ? [raw('\n'), tag('footer', {}, lines(index.rights.map(each => tag('p', {}, each))))]
          : []),
      ]),
    ]).html
  }\n`;
};

const header = ({ lesson, group, lines: under, notes, editions, missing }: Index): Html => {
  const all = [...editions, ...missing];
  return tag('header', {}, [
    ...(group ? [tag('p', { class: 'group' }, group)] : []),
    tag('h1', {}, lesson),
    ...under.map(line => tag('p', {}, line)),
    ...(notes.length > 0 ? [tag('div', { class: 'notes' }, proseToHtml(notes, 'h2'))] : []),
    ...(all.length > 1
      ? [
          tag(
            'nav',
            { 'aria-label': 'Editions' },
            tag(
              'ul',
              {},
              all.map(({ id, name }) => tag('li', {}, tag('a', { href: `#edition-${id}` }, name))),
            ),
          ),
        ]
      : []),
  ]);
};

/** What there is for the students of one instrument. */
const section = ({ id, name }: Pick<IndexEdition, 'id' | 'name'>, content: readonly Html[]): Html =>
  tag('section', { class: 'edition', id: `edition-${id}`, 'aria-labelledby': `title-${id}` }, [
    tag('h2', { id: `title-${id}` }, name),
    ...content,
  ]);

const edition = (each: IndexEdition, { editions }: Index, drawings: Drawings): Html => {
  const { name, booklet, parts, differences } = each;
  const files = [booklet, ...parts.flatMap(part => part.files), ...each.files];
  const turn = tag('p', { class: 'turn' }, 'Turn the phone: the notes grow.');
  return section(each, [
    tag(
      'ul',
      { class: 'files' },
      files.map((file, index) =>
        tag('li', { class: index === 0 ? 'booklet' : undefined }, tag('a', { href: file.href }, file.text)),
      ),
    ),
    ...(differences.length > 0 && editions.length > 1
      ? [
          tag('div', { class: 'differences' }, [
            tag('h3', {}, 'Where the editions differ'),
            proseToHtml(differences, 'h4'),
          ]),
        ]
      : []),
    turn,
    lines(parts.map(part => partToHtml(part, name, drawings))),
  ]);
};

const partToHtml = ({ title, summary, pages, words }: IndexPart, name: string, drawings: Drawings): Html =>
  tag('div', { class: 'part' }, [
    tag('h3', {}, title),
    proseToHtml(words, 'h4'),
    tag(
      'div',
      { class: 'pages' },
      pages.map(page => {
        const where = page.of > 1 ? `, page ${page.number} of ${page.of}` : '';
        const alternative = `${page.title}, ${summary}, for ${name}${where}`;
        return tag('figure', {}, [
          raw(drawings.draw(page, alternative)),
          ...(page.of > 1 ? [tag('figcaption', {}, `Page ${page.number} of ${page.of}`)] : []),
        ]);
      }),
    ),
  ]);
