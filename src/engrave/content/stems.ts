/** Stem directions: by the note farthest from the middle line, down where nothing decides. */
import type { MusicEvent } from '../../score/model/event.ts';
import type { BeamGroup } from './beams.ts';

export type StemDirection = 'up' | 'down';

/** Heights of a note's heads, sp below the top line. */
type Heights = (event: MusicEvent & { kind: 'note' }) => readonly number[];

const MIDDLE = 2;

function byFarthest(heights: readonly number[]): StemDirection | undefined {
  const below = Math.max(...heights) - MIDDLE;
  const above = MIDDLE - Math.min(...heights);
  if (below === above) return undefined;
  return below > above ? 'up' : 'down';
}

/** Directions by event id for one measure's events; `groups` are those that start in it. */
export function stemDirections(
  events: readonly MusicEvent[],
  groups: readonly BeamGroup[],
  heights: Heights,
): Map<number, StemDirection> {
  const directions = new Map<number, StemDirection>();
  for (const { events: beamed } of groups) {
    const all = beamed.flatMap(event => [...heights(event)]);
    const mean = all.reduce((a, b) => a + b, 0) / all.length;
    const direction = byFarthest(all) ?? (mean > MIDDLE ? 'up' : 'down');
    for (const event of beamed) directions.set(event.id, event.grace ? 'up' : direction);
  }
  const notes = events.filter(event => event.kind === 'note' && !event.grace) as Parameters<Heights>[0][];
  const decided = (index: number): StemDirection | undefined => {
    const event = notes[index];
    return event && (directions.get(event.id) ?? byFarthest(heights(event)));
  };
  notes.forEach((event, index) => {
    if (directions.has(event.id)) return;
    const neighbours = [decided(index - 1), decided(index + 1)];
    const leaning = neighbours.every(each => each === 'up') ? 'up' : 'down';
    directions.set(event.id, byFarthest(heights(event)) ?? leaning);
  });
  return directions;
}
