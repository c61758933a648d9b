/**
 * `<lyric>`: every verse, with elisions and extenders. Read from the tree: the library takes the name of a
 * verse for a number.
 */
import type { Lyric } from '../../score/model/event.ts';
import { attribute, type XmlElement } from '../xml/element.ts';

/** Joins syllables that are sung on one note (U+203F, undertie). */
const ELISION = '\u203f';

/** The lyric in an element; undefined for one that only carries on an extender, or is not printed. */
export const readLyric = (node: XmlElement): Lyric | undefined => {
  let text = '';
  let first: string | undefined;
  let last: string | undefined;
  let extend = false;
  for (const part of node.children) {
    if (part.nodeName === 'text') text = joined(text, part.textContent.trim());
    else if (part.nodeName === 'syllabic') {
      last = part.textContent.trim();
      first ??= last;
    } else if (part.nodeName === 'extend') extend = true;
  }
  if (text === '' || attribute(node, 'print-object') === 'no') return undefined;
  const verse = attribute(node, 'number') ?? attribute(node, 'name') ?? '1';
  return { verse, text: text.replace(/\s+/g, ' '), syllabic: syllabicOf(first, last), extend };
};

const joined = (before: string, text: string): string =>
  before === '' ? text : text === '' ? before : before + ELISION + text;

/** How syllables stand in their words: as the first begins and the last of those elided ends. */
const syllabicOf = (first: string | undefined, last: string | undefined): Lyric['syllabic'] => {
  const begins = first !== 'middle' && first !== 'end';
  const ends = last !== 'begin' && last !== 'middle';
  if (begins) return ends ? 'single' : 'begin';
  return ends ? 'end' : 'middle';
};
