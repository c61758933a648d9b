/** The one place where HTML is spelled. Text is escaped; there is no way to hand markup through. */
import { text } from '../svg/writer.ts';

/** Finished markup. Only this file's functions and the writers of pictures make it. */
export interface Html {
  readonly html: string;
}

type Attributes = Readonly<Record<string, string | undefined>>;
export type Content = Html | string | readonly (Html | string)[];

const VOID = new Set(['meta', 'br']);

const inner = (content: Content): string =>
  (Array.isArray(content) ? (content as readonly (Html | string)[]) : [content as Html | string])
    .map(each => (typeof each === 'string' ? text(each) : each.html))
    .join('');

/** An element; attributes that are undefined are left out. */
export const tag = (name: string, attributes: Attributes = {}, content: Content = ''): Html => {
  const written = Object.entries(attributes)
    .flatMap(([key, value]) => (value === undefined ? [] : [` ${key}="${text(value)}"`]))
    .join('');
  return { html: VOID.has(name) ? `<${name}${written}>` : `<${name}${written}>${inner(content)}</${name}>` };
};

/** Several things as one. */
export const all = (content: Content): Html => ({ html: inner(content) });

/** Blocks of a page, each on a line of its own. */
export const lines = (blocks: readonly Html[]): Html => ({ html: blocks.map(each => each.html).join('\n') });

/** What another writer has spelled. */
export const raw = (html: string): Html => ({ html });
