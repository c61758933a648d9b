import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  BASES,
  exactValue,
  gcd,
  lcm,
  metreTicks,
  nearestValue,
  valueTicks,
  writtenRests,
} from '../../src/score/time.ts';

const natural = fc.integer({ min: 1, max: 100_000 });

test('gcd and lcm by their definitions', () =>
  fc.assert(
    fc.property(natural, natural, (a, b) => {
      const common = gcd(a, b);
      expect([a % common, b % common, gcd(a / common, b / common)]).toEqual([0, 0, 1]);
      expect([lcm(a, b) % a, lcm(a, b) % b, lcm(a, b) * common]).toEqual([0, 0, a * b]);
    }),
  ));

test('ticks of written values', () => {
  const ticks = (base: number, dots = 0, ratio?: { actual: number; normal: number }) =>
    valueTicks({ base, dots, ratio }, 12);
  expect([ticks(4), ticks(4, 1), ticks(2, 2), ticks(0.5)]).toEqual([12, 18, 42, 96]);
  expect(ticks(8, 0, { actual: 3, normal: 2 })).toBe(4);
});

test('metres', () => {
  const fractions = [
    { beats: [3, 2], beatType: 8 },
    { beats: [1], beatType: 4 },
  ];
  expect(metreTicks({ kind: 'metred', fractions, symbol: 'fraction' }, 12)).toBe(42);
  expect(metreTicks({ kind: 'senza-misura' }, 12)).toBeUndefined();
  expect(metreTicks(undefined, 12)).toBeUndefined();
});

describe('values for ticks', () => {
  const values = fc.record({
    base: fc.constantFrom(...BASES.slice(0, 8)),
    dots: fc.integer({ min: 0, max: 3 }),
    ratio: fc.constant(undefined),
  });

  test('find every plain value again', () =>
    fc.assert(
      fc.property(values, value => {
        expect(exactValue(valueTicks(value, 768), 768)).toEqual(value);
      }),
    ));

  test('are exact or undefined; the nearest is never longer', () =>
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20_000 }),
        fc.constantFrom(1, 24, 480, 10_080),
        (ticks, division) => {
          const value = exactValue(ticks, division);
          if (value !== undefined) expect(valueTicks(value, division)).toBeCloseTo(ticks, 6);
          const nearest = nearestValue(ticks, division);
          if (nearest.base < 1024) expect(valueTicks(nearest, division)).toBeLessThanOrEqual(ticks);
        },
      ),
    ));
});

test('rests fill a gap without hole or overlap, and with values that can be written', () =>
  fc.assert(
    fc.property(fc.nat(200), fc.nat(200), (from, length) => {
      const spans = writtenRests(from, from + length, 24);
      let now = from;
      for (const { at, ticks, value } of spans) {
        expect(at).toBe(now);
        expect(ticks).toBeGreaterThan(0);
        if (valueTicks(value, 24) !== ticks) expect(exactValue(ticks, 24)).toBeUndefined();
        now += ticks;
      }
      expect(now).toBe(from + length);
    }),
  ));
