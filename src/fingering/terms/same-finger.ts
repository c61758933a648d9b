/**
 * One finger does two notes in a row: it slides along its string, rolls to the same fret of another
 * string, or hops to another fret there.
 */
import type { Grip, Touch } from '../grip.ts';
import type { MoveTerm } from './term.ts';

/** How many fingers go from a touch to another that `counts`. */
const fingersThat = (from: Grip, to: Grip, counts: (a: Touch, b: Touch) => boolean): number => {
  let count = 0;
  for (const a of from.touches) {
    if (a.finger === 0) continue;
    for (const b of to.touches) if (b.finger === a.finger && counts(a, b)) count++;
  }
  return count;
};

const SOURCE = 'never the same finger twice in a row, common practice; weight: our judgement';

export const slide: MoveTerm = {
  kind: 'move',
  name: 'slide',
  unit: 'times',
  weight: 0.4,
  source: SOURCE,
  measure: (from, to) => fingersThat(from, to, (a, b) => a.string === b.string && a.fret !== b.fret),
};

export const roll: MoveTerm = {
  kind: 'move',
  name: 'roll to another string',
  unit: 'times',
  weight: 0.8,
  source: SOURCE,
  measure: (from, to) => fingersThat(from, to, (a, b) => a.string !== b.string && a.fret === b.fret),
};

export const hop: MoveTerm = {
  kind: 'move',
  name: 'hop to another string',
  unit: 'times',
  weight: 1.2,
  source: SOURCE,
  measure: (from, to) => fingersThat(from, to, (a, b) => a.string !== b.string && a.fret !== b.fret),
};
