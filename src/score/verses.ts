/** Verses of lyrics: which there are, and where each begins. */
import type { TuneMeasure } from './tune.ts';

/** The event under which each verse begins; verses in the order of their names as numbers, then of appearance. */
export const verseOpenings = (measures: readonly TuneMeasure[]): ReadonlyMap<string, number> => {
  const openings = new Map<string, number>();
  for (const event of measures.flatMap(({ events }) => events)) {
    if (event.kind !== 'note') continue;
    for (const { verse } of event.lyrics) if (!openings.has(verse)) openings.set(verse, event.id);
  }
  return new Map([...openings].sort(([a], [b]) => (Number(a) || 0) - (Number(b) || 0)));
};
