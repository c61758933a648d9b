/**
 * What fingers cannot, or should not, do to each other from one single note to the next. (The fingers
 * of chords are lifted and set anew.)
 */
import type { FingerTerm } from './term.ts';

/** Fingers would have to cross: the higher-numbered one behind a lower fret while the hand stays. */
export const crossedFingers: FingerTerm = {
  kind: 'finger',
  name: 'fingers crossed',
  unit: 'times',
  weight: 50,
  source: 'fingers do not pass each other along the neck; the weight keeps it from ever being chosen',
  measure: (a, b, { shift, melodic }) =>
    melodic && shift === 0 && a.finger && b.finger && (a.finger - b.finger) * (a.fret - b.fret) < 0 ? 1 : 0,
};

/** At one fret the stronger finger takes the string nearer the ceiling. */
export const fingerOrder: FingerTerm = {
  kind: 'finger',
  name: 'weaker finger on the lower string',
  unit: 'times',
  weight: 0.5,
  source:
    'the lower-numbered finger takes the lower string at one fret, common practice; weight: our judgement',
  measure: (a, b, { melodic }) =>
    melodic && a.finger && b.finger && a.fret === b.fret && (a.string - b.string) * (a.finger - b.finger) > 0
      ? 1
      : 0,
};

/** A stopped note is taken over by another finger at the same place. */
export const substitution: FingerTerm = {
  kind: 'finger',
  name: 'finger changed on a held place',
  unit: 'times',
  weight: 1,
  source: 'a repeated note keeps its finger, common practice; weight: our judgement',
  measure: (a, b) => (a.string === b.string && a.fret === b.fret && a.finger !== b.finger ? 1 : 0),
};
