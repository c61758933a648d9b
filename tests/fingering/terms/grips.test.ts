/** What grips cost, term by term: each against the rule that it states, worked out by hand. */
import { describe, expect, test } from 'vitest';
import type { Grip } from '../../../src/fingering/grip.ts';
import { astray, outside, rescue } from '../../../src/fingering/terms/astray.ts';
import { drawBack } from '../../../src/fingering/terms/draw-back.ts';
import { height } from '../../../src/fingering/terms/height.ts';
import { openString } from '../../../src/fingering/terms/open-string.ts';
import { barre, chordSpread, fingersDown } from '../../../src/fingering/terms/shape.ts';
import { squeeze } from '../../../src/fingering/terms/squeeze.ts';
import { reach, stretch } from '../../../src/fingering/terms/stretch.ts';
import { weakFinger } from '../../../src/fingering/terms/weak-finger.ts';
import { grip, guitar, mandolin, mm } from './touches.ts';

describe('a grip', () => {
  test('pays for where it lies', () => {
    const lying = (fit: Grip['fit']) =>
      [outside, rescue].map(term => term.measure(grip('3/2[1]', 2, fit), guitar));
    expect([lying('inside'), lying('open'), lying('outside')]).toEqual([
      [0, 0],
      [0, 1],
      [1, 0],
    ]);
    expect(astray.measure(grip('3/2[1]', 2, 'outside', 17.5), guitar)).toBe(17.5);
  });

  test('pays for its height in mm from the nut, each note', () => {
    expect(height.measure(grip('3/5[1]', 5), guitar)).toBeCloseTo(mm(0, 5), 9);
    expect(height.measure(grip('3/5[1] 2/6[2] 1/0', 5), guitar)).toBeCloseTo(mm(0, 5) + mm(0, 6), 9);
  });

  test('pays for open strings only above the third position', () => {
    const measured = (text: string, position: number) => openString.measure(grip(text, position), guitar);
    expect([
      measured('3/0', 1),
      measured('3/0', 3),
      measured('3/5[1]', 5),
      measured('3/0 2/5[1]', 5),
    ]).toEqual([0, 0, 0, 0]);
    expect(measured('3/0', 4)).toBeCloseTo(mm(3, 4), 9);
    expect(measured('3/0 2/0', 9)).toBeCloseTo(mm(3, 9), 9);
  });

  test.each([
    // One finger a fret from position V on: 5, 6, 7, 8. Finger, fret → squeezed, drawn back, reached past.
    ['3/5[1]', 0, 0, 0],
    ['3/8[4]', 0, 0, 0],
    ['3/7[4]', 1, 0, 0],
    ['3/5[3]', 2, 0, 0],
    ['3/4[1]', 0, 1, 0],
    ['3/7[2]', 0, 0, 1],
    ['3/10[4]', 0, 0, 2],
    ['3/0', 0, 0, 0],
    ['3/7[4] 2/5[2] 1/9[3]', 2, 0, 2],
  ])('in position V, %s: squeezed %i, drawn back %i, past %i frets', (text, squeezed, back, past) => {
    const held = grip(text, 5);
    expect([squeeze, drawBack, reach].map(term => term.measure(held, guitar))).toEqual([
      squeezed,
      back,
      past,
    ]);
  });

  test('on the mandolin fingers stand two frets apart: the second at 7 and 8 in position V', () => {
    const measured = (text: string) =>
      [squeeze, drawBack, reach].map(term => term.measure(grip(text, 5), mandolin));
    expect(measured('3/6[1]')).toEqual([0, 0, 0]);
    expect(measured('3/8[2]')).toEqual([0, 0, 0]);
    expect(measured('3/6[2]')).toEqual([1, 0, 0]);
    expect(measured('3/9[2]')).toEqual([0, 0, 1]);
    expect(measured('3/4[1]')).toEqual([0, 1, 0]);
  });

  test('stretches by what goes beyond the relaxed span, or the finger’s home if that is wider', () => {
    const stretched = (text: string, position: number, hand = guitar) =>
      stretch.measure(grip(text, position), hand);
    // Relaxed: 27 mm for the middle finger, 82 for the little one.
    expect(stretched('3/3[2]', 1)).toBeCloseTo(mm(1, 3) - Math.max(27, mm(1, 2)), 9);
    expect(stretched('3/12[2]', 10)).toBeCloseTo(mm(10, 12) - 27, 9);
    // Four frets at the nut are wider at home than relaxed.
    expect(stretched('3/5[4]', 1)).toBeCloseTo(mm(1, 5) - mm(1, 4), 9);
    expect(stretched('3/14[4]', 10)).toBeCloseTo(Math.max(0, mm(10, 14) - 82), 9);
    expect(stretched('3/4[4]', 1)).toBe(0);
    expect(stretched('3/3[2] 2/5[4]', 1)).toBeCloseTo(stretched('3/3[2]', 1) + stretched('2/5[4]', 1), 9);
    expect(stretched('3/0', 1)).toBe(0);
  });

  test('pays for weak fingers: the ring finger less than the little one', () => {
    const weakness = (text: string) => weakFinger.measure(grip(text, 1), guitar);
    expect(['3/1[1]', '3/2[2]', '3/0'].map(weakness)).toEqual([0, 0, 0]);
    expect(weakness('3/4[4]')).toBeGreaterThan(weakness('3/3[3]'));
    expect(weakness('3/4[4] 2/3[3]')).toBeCloseTo(weakness('3/4[4]') + weakness('3/3[3]'), 9);
  });

  test('of a chord pays for barres, for fingers and for their spread', () => {
    const measured = (text: string) => [barre, fingersDown].map(term => term.measure(grip(text, 1), guitar));
    expect(measured('4/2[1]')).toEqual([0, 0]);
    expect(measured('4/0 3/0')).toEqual([0, 0]);
    expect(measured('4/2[1] 3/2[1]')).toEqual([1, 1]);
    expect(measured('4/2[1] 3/2[1] 2/2[1] 1/3[2]')).toEqual([1, 2]);
    expect(measured('4/2[1] 3/2[1] 2/4[3] 1/4[3]')).toEqual([2, 2]);
    expect(measured('4/0 3/2[1] 2/3[2] 1/4[4]')).toEqual([0, 3]);
    expect(measured('4/4[4] 3/4[4]')).toEqual([1, 1]);
    const spread = (text: string) => chordSpread.measure(grip(text, 1), guitar);
    expect(spread('4/1[1] 3/4[2]')).toBeCloseTo(mm(1, 4) - 41, 9);
    expect(spread('3/4[2] 4/1[1]')).toBeCloseTo(mm(1, 4) - 41, 9);
    expect(spread('4/1[1] 3/4[2] 2/5[3]')).toBeCloseTo(
      mm(1, 4) - 41 + Math.max(0, mm(1, 5) - 69) + Math.max(0, mm(4, 5) - 27),
      9,
    );
    expect(spread('4/1[1] 3/2[2] 2/0')).toBe(0);
    expect(spread('4/1[1] 3/1[1]')).toBe(0);
  });
});
