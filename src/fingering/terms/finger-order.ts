/** What fingers cannot, or should not, do to each other while the hand stays. */
import type { Grip } from '../grip.ts';
import type { MoveTerm } from './term.ts';

/** From one single note to another: the fingers of chords are lifted and set anew. */
const melodic = (from: Grip, to: Grip): boolean => from.touches.length === 1 && to.touches.length === 1;

/** Fingers would have to cross: the higher-numbered one behind a lower fret. */
export const crossedFingers: MoveTerm = {
  kind: 'move',
  name: 'fingers crossed',
  unit: 'times',
  weight: 50,
  source: 'fingers do not pass each other along the neck; the weight keeps it from ever being chosen',
  measure: (from, to) => {
    if (from.position !== to.position || !melodic(from, to)) return 0;
    let count = 0;
    for (const a of from.touches) {
      for (const b of to.touches) {
        if (a.finger && b.finger && (a.finger - b.finger) * (a.fret - b.fret) < 0) count++;
      }
    }
    return count;
  },
};

/** At one fret the stronger finger takes the string nearer the ceiling. */
export const fingerOrder: MoveTerm = {
  kind: 'move',
  name: 'weaker finger on the lower string',
  unit: 'times',
  weight: 0.5,
  source:
    'the lower-numbered finger takes the lower string at one fret, common practice; weight: our judgement',
  measure: (from, to) => {
    if (!melodic(from, to)) return 0;
    let count = 0;
    for (const a of from.touches) {
      for (const b of to.touches) {
        if (a.finger && b.finger && a.fret === b.fret && (a.string - b.string) * (a.finger - b.finger) > 0)
          count++;
      }
    }
    return count;
  },
};

/** A stopped note is taken over by another finger at the same place. */
export const substitution: MoveTerm = {
  kind: 'move',
  name: 'finger changed on a held place',
  unit: 'times',
  weight: 1,
  source: 'a repeated note keeps its finger, common practice; weight: our judgement',
  measure: (from, to) => {
    let count = 0;
    for (const a of from.touches) {
      for (const b of to.touches) {
        if (a.string === b.string && a.fret === b.fret && a.finger !== b.finger) count++;
      }
    }
    return count;
  },
};
