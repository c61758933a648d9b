/** The lyrics, verse by verse and syllable by syllable. */
import type { Tune } from '../../score/tune.ts';
import { verseOpenings } from '../../score/verses.ts';

/** What stands under a note. */
export interface Syllable {
  /** Empty on a note that the syllable before is held over. */
  readonly text: string;
  /** A word begins. */
  readonly opens: boolean;
  /** A hyphen leads to the next syllable. */
  readonly hyphen: boolean;
  /** Held over from the syllable before, with an extender line. */
  readonly held: boolean;
}

const HELD: Syllable = { text: '', opens: false, hyphen: false, held: true };

/** The syllables of each verse by event id. */
export const syllables = (
  tune: Tune,
  write: (text: string) => string,
): readonly ReadonlyMap<number, Syllable>[] =>
  [...verseOpenings(tune.measures).keys()].map(verse => {
    const found = new Map<number, Syllable>();
    let extending = false;
    for (const event of tune.measures.flatMap(({ events }) => events)) {
      const lyric =
        event.kind === 'note'
          ? event.lyrics.find(each => each.verse === verse && each.text !== '')
          : undefined;
      if (lyric) {
        const hyphen = lyric.syllabic === 'begin' || lyric.syllabic === 'middle';
        const opens = lyric.syllabic === 'begin' || lyric.syllabic === 'single';
        found.set(event.id, { text: write(lyric.text), opens, hyphen, held: false });
        extending = lyric.extend && !hyphen;
      } else if (event.kind === 'rest') extending = false;
      else if (extending) found.set(event.id, HELD);
    }
    return found;
  });

/** What stands before the row of each verse: its number, where there are several and its words do not have it. */
export const verseLabels = (tune: Tune): readonly string[] => {
  const openings = verseOpenings(tune.measures);
  const numbered = tune.measures
    .flatMap(({ events }) => events)
    .flatMap(event =>
      event.kind === 'note' ? event.lyrics.map(lyric => ({ ...lyric, event: event.id })) : [],
    )
    .filter(({ event, verse, text }) => openings.get(verse) === event && /^\d/.test(text.trim()));
  const own = new Set(numbered.map(({ verse }) => verse));
  return [...openings.keys()].map(verse =>
    openings.size > 1 && /^\d+$/.test(verse) && !own.has(verse) ? verse : '',
  );
};
