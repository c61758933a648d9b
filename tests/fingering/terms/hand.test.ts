/** The lengths of a hand, and how far it reaches; spans are those of the table in `hand.ts`. */
import { describe, expect, test } from 'vitest';
import { canReach, handOn, span } from '../../../src/fingering/hand.ts';
import { findInstrument } from '../../../src/instrument/define.ts';
import { guitar, mm } from './touches.ts';

describe('the hand', () => {
  test('is measured from the capo, and its spans with its size', () => {
    const capo = handOn({ ...findInstrument('guitar'), capo: 2 });
    expect(span(capo, 0, 3)).toBeCloseTo(mm(2, 5), 9);
    expect(span(capo, 3, 0)).toBeCloseTo(mm(2, 5), 9);
    const spans = (size: Parameters<typeof handOn>[1]) => handOn(findInstrument('guitar'), size);
    // A size in mm is the comfortable reach from index to little finger.
    expect(spans(99).comfortable[5 + 4]).toBeCloseTo(99, 9);
    expect(spans(99).practical[5 * 2 + 3]).toBeCloseTo((55 * 99) / 110, 9);
    expect(spans('medium').relaxed[5 * 4 + 1]).toBe(82);
    for (const table of ['relaxed', 'comfortable', 'practical'] as const) {
      const of = (a: number, b: number, size: 'small' | 'medium' | 'large') => spans(size)[table][5 * a + b]!;
      for (const [a, b] of [
        [1, 2],
        [1, 3],
        [1, 4],
        [2, 3],
        [2, 4],
        [3, 4],
      ] as const) {
        expect(of(a, b, 'medium')).toBe(of(b, a, 'medium'));
        expect(of(a, b, 'small')).toBeLessThan(of(a, b, 'medium'));
        expect(of(a, b, 'large')).toBeGreaterThan(of(a, b, 'medium'));
      }
    }
    expect(spans('small').reachPastHome).toBeLessThan(spans('large').reachPastHome);
  });

  test('reaches: one fret nearer than home, 30 mm past it, and never past the span of two fingers', () => {
    const frets = (position: number, finger: number, squeezed?: number) =>
      Array.from({ length: 21 }, (_, fret) => fret).filter(fret =>
        canReach(guitar, position, finger, fret, squeezed),
      );
    // In position X a fret is about 20 mm: fingers 2 to 4 reach one fret past home; finger 1 is drawn back one.
    expect(mm(12, 13)).toBeLessThan(30);
    expect(mm(11, 13)).toBeGreaterThan(30);
    expect([1, 2, 3, 4].map(finger => frets(10, finger))).toEqual([
      [9, 10],
      [10, 11, 12],
      [11, 12, 13],
      [12, 13, 14],
    ]);
    // At the nut frets are wider than 30 mm up to the fourth: only the little finger goes past home.
    expect([mm(3, 4) > 30, mm(4, 5) > 30]).toEqual([true, false]);
    expect([1, 2, 3, 4].map(finger => frets(1, finger))).toEqual([[1], [1, 2], [2, 3], [3, 4, 5]]);
    // A chord may squeeze a finger in by as much as three frets, but the first is drawn back one only.
    expect(frets(10, 4, 3)).toEqual([10, 11, 12, 13, 14]);
    expect(frets(10, 1, 3)).toEqual([9, 10]);
    expect(frets(10, 3, 0)).toEqual([12, 13]);
  });

  test('never reaches past the practical span: 69 mm for index and middle finger', () => {
    const long = { ...findInstrument('guitar'), scaleLength: 1300 };
    const bass = handOn(long);
    expect(1300 * (2 ** (-1 / 12) - 2 ** (-2 / 12))).toBeGreaterThan(68.8);
    expect(canReach(bass, 1, 2, 2)).toBe(1300 * (2 ** (-1 / 12) - 2 ** (-2 / 12)) <= 69);
    expect(canReach(bass, 1, 4, 4)).toBe(false);
    expect(canReach(bass, 5, 2, 6)).toBe(true);
  });
});
