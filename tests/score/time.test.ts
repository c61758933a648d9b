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

/** Lengths of values without dots from a whole note down, in ticks, the longest first. */
const plainTicks = (division: number): readonly number[] =>
  [1, 2, 4, 8, 16, 32, 64].map(base => (4 * division) / base).filter(Number.isInteger);

test('rests start at a multiple of their length, and no longer one could (common practice)', () =>
  fc.assert(
    fc.property(
      fc.nat(200),
      fc.integer({ min: 1, max: 200 }),
      fc.constantFrom(12, 24, 16),
      (from, length, division) => {
        const to = from + length;
        for (const { at, ticks, value } of writtenRests(from, to, division)) {
          const longest = plainTicks(division).find(each => at % each === 0 && at + each <= to);
          // Off every beat of the grid: up to the next quarter, or the end.
          expect(ticks).toBe(longest ?? Math.min(to - at, division - (at % division)));
          if (longest !== undefined)
            expect(value).toEqual({ base: (4 * division) / ticks, dots: 0, ratio: undefined });
        }
      },
    ),
  ));

describe('values of tuplets', () => {
  test('are the simplest that last so long: plain before dotted, plain before tuplets', () => {
    const written = (ticks: number, division = 12) => exactValue(ticks, division);
    expect(written(4)).toEqual({ base: 8, dots: 0, ratio: { actual: 3, normal: 2 } });
    expect(written(8)).toEqual({ base: 4, dots: 0, ratio: { actual: 3, normal: 2 } });
    expect(written(18)).toEqual({ base: 4, dots: 1, ratio: undefined });
    expect(written(21, 24)).toEqual({ base: 8, dots: 2, ratio: undefined });
    // A dotted eighth in a triplet lasts as long as a plain one outside: half a quarter.
    expect(written(6)).toEqual({ base: 8, dots: 0, ratio: undefined });
    expect(written(12, 60)).toEqual({ base: 16, dots: 0, ratio: { actual: 5, normal: 4 } });
    // Nobody writes a doubly dotted quarter in a triplet, though it would last so long.
    expect(written(14)).toBeUndefined();
    expect(written(1, 11 * 13)).toBeUndefined();
  });

  test('of a ratio that is given are of that ratio', () => {
    const triplet = { actual: 3, normal: 2 };
    expect(exactValue(12, 12, triplet)).toEqual({ base: 4, dots: 1, ratio: triplet });
    expect(exactValue(14, 12, triplet)).toEqual({ base: 4, dots: 2, ratio: triplet });
    expect(exactValue(5, 12, triplet)).toBeUndefined();
  });
});

test('the nearest value is the longest plain or dotted one that is no longer', () =>
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 5_000 }), fc.constantFrom(1, 24, 480), (ticks, division) => {
      const all = BASES.flatMap(base => [0, 1].map(dots => ({ base, dots, ratio: undefined })));
      const fitting = all.filter(value => valueTicks(value, division) <= ticks);
      const longest = Math.max(...fitting.map(value => valueTicks(value, division)));
      if (fitting.length > 0) expect(valueTicks(nearestValue(ticks, division), division)).toBe(longest);
    }),
  ));

test('the nearest value of next to nothing is the shortest note', () => {
  expect(nearestValue(0, 12)).toEqual({ base: 1024, dots: 0, ratio: undefined });
});
