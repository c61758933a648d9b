/** Sung syllables under a note, one a verse. */
import type { NoteEvent } from '../../score/model.ts';
import { textWidth } from '../font/face.ts';
import { STYLE } from '../style.ts';
import type { Syllable } from './column.ts';

/** Punctuation at the ends is not counted when a syllable is centred. */
const core = (text: string) => text.replace(/^[^\p{L}\p{N}]+|[^\p{L}\p{N}]+$/gu, '') || text;

function startOf(text: string, held: boolean, centre: number): number {
  const width = (part: string) => textWidth(part, 'serif', STYLE.lyricSize);
  const head = text.indexOf(core(text));
  const lead = width(text.slice(0, head));
  // A syllable held over several notes begins under its first one.
  return held ? -lead - 0.1 : centre - width(core(text)) / 2 - lead;
}

export function syllables(event: NoteEvent, verses: readonly string[], centre: number): Syllable[] {
  return event.lyrics.flatMap(({ verse, text, syllabic, extend }) => {
    const shown = text.trim();
    if (shown === '') return [];
    const x = startOf(shown, extend, centre);
    const right = x + textWidth(shown, 'serif', STYLE.lyricSize);
    return {
      verse: verses.indexOf(verse),
      marks: [
        {
          kind: 'text' as const,
          role: 'lyric' as const,
          text: shown,
          face: 'serif' as const,
          x,
          y: 0,
          size: STYLE.lyricSize,
          anchor: 'start' as const,
          of: event.id,
        },
      ],
      left: x,
      right,
      hyphen: syllabic === 'begin' || syllabic === 'middle',
      extend,
    };
  });
}
