/** The lyrics of the first verse, syllable by syllable. */
import type { NoteEvent } from '../../score/model/event.ts';
import type { Tune } from '../../score/tune.ts';
import type { EndingSpan } from './endings.ts';

/** What stands under a note. */
export interface Syllable {
  /** Empty on a note that the syllable before is held over. */
  readonly text: string;
  /** A hyphen leads to the next syllable. */
  readonly hyphen: boolean;
  /** Held over from the syllable before, with an extender line. */
  readonly held: boolean;
}

/**
 * Syllables by event id: the verse that the file names first. Inside an ending, where only a later
 * verse may have words, a note without words of the first verse shows those of the next.
 */
export const syllables = (
  tune: Tune,
  endings: readonly (EndingSpan | undefined)[],
  write: (text: string) => string,
): ReadonlyMap<number, Syllable> => {
  const verses = versesOf(tune);
  const found = new Map<number, Syllable>();
  let extending = false;
  tune.measures.forEach((measure, index) => {
    const shown = endings[index] ? verses : verses.slice(0, 1);
    for (const event of measure.events) {
      const lyric = event.kind === 'note' ? lyricOf(event, shown) : undefined;
      if (lyric) {
        const hyphen = lyric.syllabic === 'begin' || lyric.syllabic === 'middle';
        found.set(event.id, { text: write(lyric.text), hyphen, held: false });
        extending = lyric.extend && !hyphen;
      } else if (event.kind === 'rest') extending = false;
      else if (extending) found.set(event.id, { text: '', hyphen: false, held: true });
    }
  });
  return found;
};

const lyricOf = (event: NoteEvent, verses: readonly string[]) => {
  for (const verse of verses) {
    const lyric = event.lyrics.find(each => each.verse === verse && each.text !== '');
    if (lyric) return lyric;
  }
  return undefined;
};

/** Verses by number where they have numbers, else in the order of the file. */
const versesOf = (tune: Tune): readonly string[] => {
  const names = new Set<string>();
  for (const { events } of tune.measures)
    for (const event of events)
      if (event.kind === 'note') for (const { verse } of event.lyrics) names.add(verse);
  return [...names].sort((a, b) => (Number(a) || 0) - (Number(b) || 0));
};
