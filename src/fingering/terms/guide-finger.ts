/** A finger that stays on its string through a shift leads the hand: part of the shift is given back. */
import type { Grip } from '../grip.ts';
import type { MoveTerm } from './term.ts';

export const hasGuide = (from: Grip, to: Grip): boolean =>
  from.touches.some(
    a =>
      a.finger > 0 &&
      to.touches.some(b => b.finger === a.finger && b.string === a.string && b.fret !== a.fret),
  );

export const guideFinger: MoveTerm = {
  kind: 'move',
  name: 'guide finger',
  unit: 'times',
  weight: -0.1,
  source: 'guide fingers stay in contact through a shift, common practice; weight: our judgement',
  measure: (from, to) => (from.position !== to.position && hasGuide(from, to) ? 1 : 0),
};
