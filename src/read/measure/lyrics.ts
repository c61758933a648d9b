/**
 * `<lyric>`: every verse, with elisions and extenders. Read from the tree: the library takes the name of a
 * verse for a number.
 */
import type { Lyric } from '../../score/model/event.ts';
import { type Placed, sourceOf, type Walk } from '../draft.ts';
import { attribute, child, type XmlElement } from '../xml/element.ts';

/** Joins syllables that are sung on one note (U+203F, undertie). */
const ELISION = '\u203f';

/** Adds the syllables of a note to its event. */
export const addLyrics = (walk: Walk, node: XmlElement, { event }: Placed): void => {
  let unnamed = 0;
  for (const element of node.children) {
    if (element.nodeName !== 'lyric') continue;
    const name = attribute(element, 'number') ?? attribute(element, 'name');
    if (name === undefined) unnamed += 1;
    if (child(element, 'humming') ?? child(element, 'laughing')) {
      walk.omissions.add('humming and laughing', sourceOf(walk, element), event.id);
    }
    // Verses without a name are told apart by their order.
    const lyric = readLyric(element, name ?? String(unnamed));
    if (lyric === undefined) continue;
    if (event.kind === 'rest') {
      walk.omissions.add('lyrics under rests', sourceOf(walk, element), event.id);
      continue;
    }
    // Some programs write the syllable of a chord on each of its notes.
    const isSaid = event.lyrics.some(({ verse, text }) => verse === lyric.verse && text === lyric.text);
    if (!isSaid) event.lyrics = [...event.lyrics, lyric];
  }
};

/** The lyric in an element; undefined for one that only carries on an extender, or is not printed. */
const readLyric = (node: XmlElement, verse: string): Lyric | undefined => {
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
