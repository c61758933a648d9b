/** Blocks of text as HTML. */
import type { Block, Run, Words } from '../../lesson/pack/prose.ts';
import { all, type Html, lines, tag } from './writer.ts';

/** `heading` is the element that headings in the text become: "h3". */
export const proseToHtml = (blocks: readonly Block[], heading: string): Html =>
  lines(blocks.map(block => blockToHtml(block, heading)));

const blockToHtml = (block: Block, heading: string): Html => {
  switch (block.kind) {
    case 'paragraph':
      return tag('p', {}, wordsToHtml(block.words));
    case 'heading':
      return tag(heading, {}, wordsToHtml(block.words));
    case 'quote':
      return tag('blockquote', {}, proseToHtml(block.blocks, heading));
    case 'list': {
      const items = block.items.map(item => tag('li', {}, itemToHtml(item, heading)));
      const start = block.from === undefined || block.from === 1 ? undefined : String(block.from);
      return tag(block.from === undefined ? 'ul' : 'ol', { start }, items);
    }
  }
};

/** A single paragraph needs no element of its own. */
const itemToHtml = (item: readonly Block[], heading: string): Html | readonly Html[] => {
  const [only] = item;
  return item.length === 1 && only?.kind === 'paragraph'
    ? wordsToHtml(only.words)
    : proseToHtml(item, heading);
};

const wordsToHtml = (words: Words): readonly Html[] => words.map(runToHtml);

const runToHtml = ({ text, bold, italic, href }: Run): Html => {
  const parts = text.split('\n').flatMap((line, index) => (index > 0 ? [tag('br'), line] : [line]));
  let html = all(parts);
  if (italic) html = tag('em', {}, html);
  if (bold) html = tag('strong', {}, html);
  return href === undefined ? html : tag('a', { href }, html);
};
