/** `<lyric>`: every verse, with elisions and extenders. */
import { SyllabicType, type Lyric as XmlLyric } from 'musicxml-interfaces';
import type { Lyric } from '../../score/model.ts';
import { attribute, type XmlElement } from '../xml/element.ts';

/** Joins syllables that are sung on one note (U+203F, undertie). */
const ELISION = '\u203f';

/** What the library makes of the inside of a lyric; told apart by `_class`. */
interface LyricPart {
  readonly _class?: string;
  /** Of a text or a syllabic. */
  readonly data?: string | SyllabicType;
}

/** The lyrics of a note; those that only carry on an extender, or are not printed, are none. */
export const readLyrics = (note: XmlElement, lyrics: readonly XmlLyric[]): Lyric[] => {
  const read: Lyric[] = [];
  let index = 0;
  for (const node of note.children) {
    if (node.nodeName !== 'lyric') continue;
    const data = lyrics[index];
    index += 1;
    const lyric = data === undefined || data.printObject === false ? undefined : lyricOf(node, data);
    if (lyric !== undefined) read.push(lyric);
  }
  return read;
};

const lyricOf = (node: XmlElement, data: XmlLyric): Lyric | undefined => {
  const texts: string[] = [];
  const syllabics: SyllabicType[] = [];
  let extend = false;
  for (const part of data.lyricParts as readonly LyricPart[]) {
    if (part._class === 'Text') texts.push(String(part.data).replace(/\s+/g, ' '));
    else if (part._class === 'Syllabic') syllabics.push(part.data as SyllabicType);
    else if (part._class === 'Extend') extend = true;
  }
  const text = texts.filter(each => each !== '').join(ELISION);
  if (text === '') return undefined;
  return {
    verse: attribute(node, 'number') ?? attribute(node, 'name') ?? '1',
    text,
    syllabic: joined(syllabics),
    extend,
  };
};

/** How elided syllables stand together in their words: as the first begins and the last ends. */
const joined = (syllabics: readonly SyllabicType[]): Lyric['syllabic'] => {
  const first = syllabics[0] ?? SyllabicType.Single;
  const last = syllabics[syllabics.length - 1] ?? SyllabicType.Single;
  const begins = first === SyllabicType.Single || first === SyllabicType.Begin;
  const ends = last === SyllabicType.Single || last === SyllabicType.End;
  if (begins) return ends ? 'single' : 'begin';
  return ends ? 'end' : 'middle';
};
