/** `<lyric>`: a verse's syllables under a note. */
import type { Lyric } from '../../score/model/event.ts';
import { element, empty, leaf, type XmlNode } from './xml.ts';

/** Stands between syllables that are sung on one note (U+203F, undertie). */
const ELISION = '\u203f';

/** A syllable as `<lyric>`. */
export const lyricElement = (lyric: Lyric): XmlNode => {
  const syllables = lyric.text.split(ELISION);
  return element(
    'lyric',
    verseName(lyric.verse),
    syllables.flatMap((text, index) => [
      ...(index === 0 ? [] : [leaf('elision', ELISION)]),
      leaf('syllabic', syllabicOf(lyric.syllabic, index, syllables.length)),
      leaf('text', text),
    ]),
    lyric.extend ? empty('extend') : undefined,
  );
};

/** Verse numbers are name tokens in the schema; any other name is a `name`. */
const verseName = (verse: string): Readonly<Record<string, string>> =>
  /^[\w.:-]+$/.test(verse) ? { number: verse } : { name: verse };

/** Where a syllable stands in its word: only the ends of an elided group can be open. */
const syllabicOf = (whole: Lyric['syllabic'], index: number, count: number): Lyric['syllabic'] => {
  const begins = index > 0 || whole === 'single' || whole === 'begin';
  const ends = index < count - 1 || whole === 'single' || whole === 'end';
  if (begins) return ends ? 'single' : 'begin';
  return ends ? 'end' : 'middle';
};
