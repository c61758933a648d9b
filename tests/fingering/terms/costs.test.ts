/** From what terms measure to costs: weights, rounding, haste, levels. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Grip } from '../../../src/fingering/grip.ts';
import { span } from '../../../src/fingering/hand.ts';
import { costModel, fingerCost, gripCost, handCost } from '../../../src/fingering/model.ts';
import { crossing } from '../../../src/fingering/terms/crossing.ts';
import { guideFinger } from '../../../src/fingering/terms/guide-finger.ts';
import { height } from '../../../src/fingering/terms/height.ts';
import { FINGER_TERMS, GRIP_TERMS, HAND_TERMS } from '../../../src/fingering/terms/index.ts';
import { landing } from '../../../src/fingering/terms/landing.ts';
import { openString } from '../../../src/fingering/terms/open-string.ts';
import { reentrantString } from '../../../src/fingering/terms/reentrant-string.ts';
import { stopsRinging } from '../../../src/fingering/terms/ringing.ts';
import { hop, roll } from '../../../src/fingering/terms/same-finger.ts';
import { shiftCount, shiftDistance } from '../../../src/fingering/terms/shift.ts';
import { slurBreak } from '../../../src/fingering/terms/slur-break.ts';
import { chargeMove, toCost } from '../../../src/fingering/terms/term.ts';
import { hasteOf } from '../../../src/fingering/time.ts';
import { grip, guitar, moves, touches } from './touches.ts';

describe('costs', () => {
  const model = costModel({ level: 'even', campanella: false });
  const context = (sounding: number, silence = 0) => ({ ...hasteOf({ sounding, silence }), slurred: true });

  test('are thousandths of a point: weight by what is measured, rounded', () => {
    expect(toCost({ ...height, weight: 0.01 }, 123.44)).toBe(1234);
    expect(toCost({ ...height, weight: 0.01 }, 123.46)).toBe(1235);
    expect(Object.is(toCost({ ...guideFinger, weight: -0.1 }, 0), 0)).toBe(true);
  });

  test('haste is 1 with half a quarter free, falls with the root of time, from 2 to 0.5', () => {
    expect(hasteOf({ sounding: 1, silence: 0 })).toEqual({
      haste: 1,
      hasteFromOpen: Math.sqrt(0.5),
      rested: false,
    });
    expect(hasteOf({ sounding: 1, silence: 0.5 }).haste).toBeCloseTo(Math.sqrt(0.5), 12);
    expect(hasteOf({ sounding: 1, silence: 1 }).hasteFromOpen).toBeCloseTo(0.5, 12);
    expect(hasteOf({ sounding: 0.25, silence: 0 }).haste).toBe(2);
    expect(hasteOf({ sounding: 0, silence: 0 }).haste).toBe(2);
    expect(hasteOf({ sounding: 8, silence: 0 }).haste).toBe(0.5);
    expect([1.9, 2, 2.1].map(silence => hasteOf({ sounding: 1, silence }).rested)).toEqual([
      false,
      true,
      true,
    ]);
  });

  test('of a move: the hand in the haste that the string left behind leaves; the fingers from each to each', () => {
    const [stopped, open, to] = [grip('3/2[1]', 2), grip('3/0', 2), grip('2/7[1]', 7)];
    expect(chargeMove(shiftCount, stopped, to, guitar, context(1)).measured).toBe(1);
    expect(chargeMove(shiftCount, open, to, guitar, context(1)).measured).toBeCloseTo(Math.sqrt(0.5), 12);
    expect(chargeMove(shiftCount, stopped, to, guitar, context(1)).cost).toBe(toCost(shiftCount, 1));
    expect(chargeMove(landing, stopped, grip('2/8[3]', 7), guitar, context(1)).measured).toBe(2);
    expect(chargeMove(landing, grip('2/8[3]', 7), stopped, guitar, context(1)).measured).toBe(3);
    expect(chargeMove(slurBreak, stopped, to, guitar, context(1)).measured).toBe(1);
    const [chord, other] = [grip('4/2[1] 3/3[2]', 2), grip('2/2[1] 1/2[1]', 2)];
    // Finger 1 of string 4 rolls to strings 2 and 1; finger 2 does nothing.
    expect(chargeMove(roll, chord, other, guitar, context(1))).toEqual({
      measured: 2,
      cost: 2 * toCost(roll, 1),
    });
    expect(chargeMove(crossing, chord, to, guitar, context(1)).measured).toBe(0);
    expect(chargeMove(crossing, to, chord, guitar, context(1)).measured).toBe(0);
  });

  test('of a move after a rest: only the hand’s', () => {
    const [from, to] = [grip('3/2[1]', 2), grip('2/7[1]', 7)];
    expect(chargeMove(hop, from, to, guitar, context(1, 2))).toEqual({ measured: 0, cost: 0 });
    expect(chargeMove(shiftCount, from, to, guitar, context(1, 2)).measured).toBe(0.5);
  });

  test('of a grip, of a hand and of fingers are the sums of their terms', () => {
    fc.assert(
      fc.property(
        fc.array(touches, { minLength: 1, maxLength: 3 }),
        fc.array(touches, { minLength: 1, maxLength: 3 }),
        moves,
        (from, to, move) => {
          const held: Grip = { touches: from, position: 3, fit: 'outside', astray: 12 };
          expect(gripCost(model, held, guitar)).toBe(
            model.gripTerms.map(term => toCost(term, term.measure(held, guitar))).reduce((a, b) => a + b),
          );
          const each = from.flatMap(a =>
            to.flatMap(b => model.fingerTerms.map(term => toCost(term, term.measure(a, b, move, guitar)))),
          );
          expect(fingerCost(model, from, to, move, guitar)).toBe(each.reduce((a, b) => a + b));
        },
      ),
    );
    expect(handCost(model, 2, 7, 2, guitar)).toBe(
      toCost(shiftCount, 2) + toCost(shiftDistance, 2 * span(guitar, 2, 7)),
    );
  });

  test('weigh height above all at level first, and let every string ring in campanella', () => {
    const weights = (said: Parameters<typeof costModel>[0]) =>
      new Map(
        Object.values(costModel(said)).flatMap(
          (terms: readonly { readonly name: string; readonly weight: number }[]) =>
            terms.map(({ name, weight }) => [name, weight] as const),
        ),
      );
    const all = [...GRIP_TERMS, ...HAND_TERMS, ...FINGER_TERMS];
    const even = weights({ level: 'even', campanella: false });
    expect([...even]).toEqual(
      all.filter(({ weight }) => weight !== 0).map(({ name, weight }) => [name, weight]),
    );
    expect(even.has(stopsRinging.name)).toBe(false);
    expect(weights({ level: 'least', campanella: false })).toEqual(even);
    const first = weights({ level: 'first', campanella: false });
    expect(first.get(height.name)).toBe(10 * height.weight);
    expect(first.get(reentrantString.name)).toBe(10 * reentrantString.weight);
    expect(first.has(openString.name)).toBe(false);
    expect(first.get(shiftCount.name)).toBe(shiftCount.weight);
    const ringing = weights({ level: 'even', campanella: true });
    expect(ringing.get(stopsRinging.name)).toBeGreaterThan(0);
    expect(ringing.has(reentrantString.name)).toBe(false);
    expect(ringing.has(crossing.name)).toBe(false);
    expect(ringing.get(height.name)).toBe(height.weight);
    const both = weights({ level: 'first', campanella: true });
    expect([both.get(height.name), both.has(reentrantString.name)]).toEqual([10 * height.weight, false]);
  });
});
