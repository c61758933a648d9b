/** Hands can do what is written: every real tune, several instruments and rules. */
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Placement } from '../../src/fingering/arrangement.ts';
import { type Hand, handOn, span } from '../../src/fingering/hand.ts';
import { type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { strikesOf, timingBefore } from '../../src/fingering/strikes.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { soundAt } from '../../src/instrument/places.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import { unlessRefused } from '../support/refused.ts';
import { realTunes } from '../support/tunes.ts';

const CASES: readonly (readonly [string, number, Partial<Rules>])[] = [
  ['ukulele', 0, { windows: wholeTune(4, 8), repeats: 'free' }],
  ['ukulele-low-g', 0, { windows: wholeTune(0, 5), level: 'first' }],
  ['ukulele-low-g', 0, { windows: wholeTune(5, 9), onePlace: true, hand: 'small' }],
  ['ukulele', 0, { windows: wholeTune(0, 7), campanella: true, repeats: 'free' }],
  ['guitar', -12, { windows: wholeTune(1, 5), repeats: 'free' }],
  ['mandolin', 0, { windows: wholeTune(0, 7), level: 'least', repeats: 'free' }],
  ['baritone-ukulele', -5, { windows: wholeTune(2, 7), repeats: 'free', open: 'free' }],
];

/** Fingers of one hand that are down at once, or one after the other without a shift. */
const checkPair = (a: Placement, b: Placement, what: string): void => {
  if (a.finger === 0 || b.finger === 0 || a.finger === b.finger) return;
  expect((a.finger - b.finger) * (a.fret - b.fret), `fingers cross: ${what}`).toBeGreaterThanOrEqual(0);
};

const checkReach = (hand: Hand, { finger, fret, position }: Placement, what: string): void => {
  if (finger === 0) return;
  const limit = finger === 1 ? hand.practical[5 + 2]! : hand.practical[5 + finger]!;
  expect(span(hand, position, fret), `reach: ${what}`).toBeLessThanOrEqual(limit);
  expect(fret).toBeGreaterThan(0);
};

/** The placements of a strike's notes can be held at once. */
const checkChord = (hand: Hand, held: readonly Placement[], what: string): void => {
  expect(new Set(held.map(({ string }) => string)).size, `strings: ${what}`).toBe(held.length);
  for (const a of held) {
    checkReach(hand, a, what);
    for (const b of held) {
      if (a === b) continue;
      checkPair(a, b, what);
      if (a.finger > 0 && a.finger === b.finger) expect(a.fret, `barre: ${what}`).toBe(b.fret);
      if (a.finger > 0 && b.finger > a.finger)
        expect(span(hand, a.fret, b.fret)).toBeLessThanOrEqual(hand.practical[5 * a.finger + b.finger]!);
    }
  }
};

describe.each(['top', 'all'] as const)('real tunes, chords %s', chords => {
  const tunes = realTunes(chords);
  test.each(CASES)('%s moved by %i', { timeout: 120_000 }, (id, semitones, said) => {
    const instrument = findInstrument(id);
    const rules = rulesFrom(said);
    const hand = handOn(instrument, rules.hand);
    let checked = 0;
    for (const { name, tune } of tunes) {
      const moved = transposeTune(tune, semitones);
      const answer = unlessRefused(() => arrange(moved, instrument, rules));
      if (!answer) continue;
      checked++;
      const { placements } = answer.arrangement;
      const { strikes } = strikesOf(moved);
      const held = strikes.map(({ heads }) => heads.map(head => placements.get(head)!));
      held.forEach((touches, k) => {
        const { source, beat, sounds } = strikes[k]!;
        const what = `${name} measure ${source.measure} beat ${beat}`;
        checkChord(hand, touches, what);
        touches.forEach((place, n) => {
          expect(soundAt(instrument, place), what).toBe(sounds[n]);
        });
        const before = held[k - 1];
        if (!before || before.length > 1 || touches.length > 1) return;
        const rest = timingBefore(moved.division, strikes[k - 1]!, strikes[k]!).silence;
        if (before[0]!.position === touches[0]!.position && rest < 2)
          checkPair(before[0]!, touches[0]!, what);
      });
    }
    expect(checked).toBeGreaterThanOrEqual(0.6 * tunes.length);
  });
});
