/**
 * One finger does two notes in a row: it slides along its string, rolls to the same fret of another
 * string, or hops to another fret there.
 */
import type { FingerTerm } from './term.ts';

const SOURCE = 'never the same finger twice in a row, common practice; weight: our judgement';

export const slide: FingerTerm = {
  kind: 'finger',
  name: 'slide',
  unit: 'times',
  weight: 0.4,
  source: SOURCE,
  measure: (a, b) =>
    a.finger > 0 && a.finger === b.finger && a.string === b.string && a.fret !== b.fret ? 1 : 0,
};

export const roll: FingerTerm = {
  kind: 'finger',
  name: 'roll to another string',
  unit: 'times',
  weight: 0.8,
  source: SOURCE,
  measure: (a, b) =>
    a.finger > 0 && a.finger === b.finger && a.string !== b.string && a.fret === b.fret ? 1 : 0,
};

export const hop: FingerTerm = {
  kind: 'finger',
  name: 'hop to another string',
  unit: 'times',
  weight: 1.2,
  source: SOURCE,
  measure: (a, b) =>
    a.finger > 0 && a.finger === b.finger && a.string !== b.string && a.fret !== b.fret ? 1 : 0,
};
