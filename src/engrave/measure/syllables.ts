/** Sung syllables under a note, one a verse. */
import type { Lyric, NoteEvent } from '../../score/model/event.ts';
import type { Notation } from '../content/notation.ts';
import { bow } from '../drawing/curve.ts';
import type { Mark } from '../drawing/mark.ts';
import { textWidth } from '../font/face.ts';
import { STYLE } from '../style.ts';
import type { Syllable } from './column.ts';

const SIZE = STYLE.lyricSize;
/** Between two syllables that are sung on one note. */
const ELISION = '\u203f';

const width = (text: string) => textWidth(text, 'serif', SIZE);

/** Punctuation at the ends is not counted when a syllable is centred. */
const core = (text: string) => text.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '') || text;

/** Syllables joined by elision are set a word space apart, with a small curve under the gap. */
function lyricText(text: string, x: number, of: number): { marks: Mark[]; right: number } {
  const marks: Mark[] = [];
  let at = x;
  text.split(ELISION).forEach((part, i) => {
    if (i > 0) {
      const gap = width(' ') * 1.3;
      const [from, to] = [at - 0.35, at + gap + 0.35];
      marks.push(bow('lyric', { x: from, y: 0.25 }, { x: to, y: 0.25 }, 1, 0.28));
      at += gap;
    }
    const shown = part.trim();
    marks.push({
      kind: 'text',
      role: 'lyric',
      text: shown,
      face: 'serif',
      x: at,
      y: 0,
      size: SIZE,
      anchor: 'start',
      of,
    });
    at += width(shown);
  });
  return { marks, right: at };
}

/** A number that a file has in the text of a verse's first syllable. */
const NUMBERED = /^(\d+)[.):]?\s+/;

/** A syllable's text, and before a verse's first one its number: the file's own, or its name where there are several. */
function numbered({ verses, openings }: Notation, event: NoteEvent, lyric: Lyric) {
  const text = lyric.text.trim();
  if (openings.get(lyric.verse) !== event.id) return { number: '', text };
  const own = NUMBERED.exec(text);
  if (own) return { number: `${own[1]}.`, text: text.slice(own[0].length) };
  const isNamed = verses.length > 1 && /^\d+$/.test(lyric.verse) && !/^\d/.test(text);
  return { number: isNamed ? `${lyric.verse}.` : '', text };
}

/** Room that a verse's number takes before its text. */
export const numberRoom = (number: string): number => (number ? width(`${number} `) + 0.2 : 0);

function syllable(notation: Notation, event: NoteEvent, lyric: Lyric, centre: number): Syllable {
  const { number, text } = numbered(notation, event, lyric);
  const plain = text.replaceAll(ELISION, ' ');
  const lead = width(plain.slice(0, plain.indexOf(core(plain))));
  // A syllable held over several notes begins under its first one.
  const x = lyric.extend ? -lead - 0.1 : centre - width(core(plain)) / 2 - lead;
  const { marks, right } = lyricText(text, x, event.id);
  return {
    verse: notation.verses.indexOf(lyric.verse),
    number,
    marks,
    left: x,
    right,
    opens: lyric.syllabic === 'begin' || lyric.syllabic === 'single',
    hyphen: lyric.syllabic === 'begin' || lyric.syllabic === 'middle',
    extend: lyric.extend,
  };
}

export function syllables(notation: Notation, event: NoteEvent, centre: number): Syllable[] {
  return event.lyrics
    .filter(lyric => lyric.text.trim() !== '')
    .map(lyric => syllable(notation, event, lyric, centre));
}
