/** What holding a chord costs beyond its single fingers. */
import { span } from '../hand.ts';
import type { GripTerm } from './term.ts';

/** One finger lies across strings. */
export const barre: GripTerm = {
  kind: 'grip',
  name: 'barre',
  unit: 'times',
  weight: 1,
  source: 'be sparing of barres (Sor, as teachers quote him); weight: our judgement',
  measure: ({ touches }) => {
    let barres = 0;
    for (let finger = 1; finger <= 4; finger++) {
      if (touches.filter(touch => touch.finger === finger).length > 1) barres++;
    }
    return barres;
  },
};

/** How many fingers a chord takes down at once. */
export const fingersDown: GripTerm = {
  kind: 'grip',
  name: 'fingers of a chord',
  unit: 'fingers',
  weight: 0.3,
  source: 'fewer fingers are easier, common practice; weight: our judgement',
  measure: ({ touches }) =>
    touches.length > 1 ? new Set(touches.map(touch => touch.finger).filter(finger => finger > 0)).size : 0,
};

/** Fingers held at once spread farther than they like to. */
export const chordSpread: GripTerm = {
  kind: 'grip',
  name: 'spread of a chord',
  unit: 'mm',
  weight: 0.05,
  source:
    'comfortable spans by pair of fingers (after Parncutt et al. 1997, from memory); weight: our judgement',
  measure: ({ touches }, hand) => {
    let excess = 0;
    for (const a of touches) {
      for (const b of touches) {
        if (a.finger === 0 || a.finger >= b.finger) continue;
        excess += Math.max(0, span(hand, a.fret, b.fret) - hand.comfortable[5 * a.finger + b.finger]!);
      }
    }
    return excess;
  },
};
