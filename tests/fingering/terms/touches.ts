/** Grips and touches in short notation, and lengths on the guitar, for the tests of cost terms. */
import fc from 'fast-check';
import type { Finger } from '../../../src/fingering/arrangement.ts';
import type { FingerMove, Grip, Touch } from '../../../src/fingering/grip.ts';
import { handOn } from '../../../src/fingering/hand.ts';
import type { FingerTerm } from '../../../src/fingering/terms/term.ts';
import { findInstrument } from '../../../src/instrument/define.ts';

export const guitar = handOn(findInstrument('guitar'));
export const mandolin = handOn(findInstrument('mandolin'));
export const ukulele = handOn(findInstrument('ukulele'));

/**
 * mm from fret to fret on the guitar: on a scale of L mm fret n lies at L·(1 − 2^(−n/12)) from the nut (the
 * formula every maker uses).
 */
export const mm = (from: number, to: number): number => 650 * (2 ** (-from / 12) - 2 ** (-to / 12));

/** "3/5[2]": string 3, fret 5, finger 2; without a finger an open string. */
const touch = (text: string): Touch => {
  const [, string, fret, finger] = /^(\d)\/(\d+)(?:\[(\d)\])?$/.exec(text)!;
  return { string: Number(string), fret: Number(fret), finger: Number(finger ?? 0) as Finger };
};

export const grip = (text: string, position: number, fit: Grip['fit'] = 'inside', far = 0): Grip => ({
  touches: text.split(' ').map(touch),
  position,
  fit,
  astray: far,
});

export const MELODIC: FingerMove = { shift: 0, melodic: true, slurred: false };
export const UP: FingerMove = { ...MELODIC, shift: 1 };
export const DOWN: FingerMove = { ...MELODIC, shift: -1 };
export const CHORDS: FingerMove = { ...MELODIC, melodic: false };

/** What a finger term measures of "from > to". */
export const between = (
  term: FingerTerm,
  text: string,
  move: FingerMove = MELODIC,
  hand = guitar,
): number => {
  const [a, b] = text.split(' > ').map(touch);
  return term.measure(a!, b!, move, hand);
};

export const touches = fc
  .record({ string: fc.integer({ min: 1, max: 4 }), fret: fc.nat(6), finger: fc.integer({ min: 1, max: 4 }) })
  .map(({ finger, ...place }): Touch => ({ ...place, finger: place.fret === 0 ? 0 : (finger as Finger) }));
export const moves: fc.Arbitrary<FingerMove> = fc.record({
  shift: fc.constantFrom(-1, 0, 1),
  melodic: fc.boolean(),
  slurred: fc.boolean(),
});
