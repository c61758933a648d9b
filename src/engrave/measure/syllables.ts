/** Sung syllables under a note, one a verse. */
import type { Lyric, NoteEvent } from '../../score/model.ts';
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

/** The verse's number before its first syllable, where there are several and the text has none. */
function verseNumber({ verses, openings }: Notation, event: NoteEvent, { verse, text }: Lyric): string {
  const opens = verses.length > 1 && openings.get(verse) === event.id;
  return opens && /^\d+$/.test(verse) && !/^\d/.test(text.trim()) ? `${verse}.` : '';
}

function syllable(notation: Notation, event: NoteEvent, lyric: Lyric, centre: number): Syllable {
  const text = lyric.text.trim();
  const plain = text.replaceAll(ELISION, ' ');
  const lead = width(plain.slice(0, plain.indexOf(core(plain))));
  // A syllable held over several notes begins under its first one.
  const x = lyric.extend ? -lead - 0.1 : centre - width(core(plain)) / 2 - lead;
  const { marks, right } = lyricText(text, x, event.id);
  const number = verseNumber(notation, event, lyric);
  const left = number ? x - width(`${number} `) - 0.2 : x;
  if (number)
    marks.push({
      kind: 'text',
      role: 'lyric',
      text: number,
      face: 'serif',
      x: left,
      y: 0,
      size: SIZE,
      anchor: 'start',
    });
  return {
    verse: notation.verses.indexOf(lyric.verse),
    marks,
    left,
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
