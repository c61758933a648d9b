/** How far a held syllable is sung: over the notes that follow, up to the next syllable of its verse or a rest. */
import type { Tune } from '../../score/tune.ts';

/** The last event that a held syllable covers. */
export interface Melismas {
  lastEvent(event: number, verse: string): number | undefined;
}

export function melismas({ measures }: Tune): Melismas {
  const held = new Map<string, number>();
  /** Syllables being held, by verse: the event they began under. */
  const open = new Map<string, number>();
  for (const event of measures.flatMap(({ events }) => events)) {
    if (event.kind === 'rest') {
      open.clear();
      continue;
    }
    for (const { verse, extend } of event.lyrics) {
      if (extend) open.set(verse, event.id);
      else open.delete(verse);
    }
    if (event.grace) continue;
    for (const [verse, from] of open) held.set(`${from} ${verse}`, event.id);
  }
  return { lastEvent: (event, verse) => held.get(`${event} ${verse}`) };
}
