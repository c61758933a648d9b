/** Work that is dealt out to machines, and reports that come back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dealt, faultsOf, type Held, shareOf } from '../../src/batch/shares.ts';

const NAMES = ['a', 'b', 'c', 'd', 'e', 'f', 'g'];

const held = (index: number, count: number, names: readonly string[] = NAMES): Held => ({
  share: shareOf(names, { index, count }),
  holder: `${index}.jsonl`,
});

const brief = (all: readonly Held[]): readonly string[] =>
  faultsOf(all).map(each =>
    each.kind === 'missing' ? `${each.index} is missing` : `${each.second.share.index} twice`,
  );

it('every tune is in one share, and shares are as even as can be', () => {
  fc.assert(
    fc.property(fc.nat(40), fc.integer({ min: 1, max: 9 }), (size, count) => {
      const all = Array.from({ length: size }, (_, at) => at);
      const shares = Array.from({ length: count }, (_, at) => dealt(all, { index: at + 1, count }));
      expect(shares.flat().sort((a, b) => a - b)).toEqual(all);
      const sizes = shares.map(each => each.length);
      expect(Math.max(...sizes) - Math.min(...sizes)).toBeLessThanOrEqual(1);
    }),
  );
});

describe('reports of shares', () => {
  it('add up when each is there once, in whatever order', () => {
    fc.assert(
      fc.property(fc.shuffledSubarray([1, 2, 3, 4]), given => {
        const lacking = given.length === 0 ? [] : [1, 2, 3, 4].filter(index => !given.includes(index));
        expect(brief(given.map(index => held(index, 4)))).toEqual(
          lacking.map(index => `${index} is missing`),
        );
      }),
    );
  });

  it('of which one is there twice would count tunes twice', () => {
    expect(brief([held(1, 2), held(2, 2), held(1, 2)])).toEqual(['1 twice']);
    expect(brief([held(1, 1), held(1, 1)])).toEqual(['1 twice']);
    expect(brief([held(1, 1), held(2, 3)])).toEqual(['2 twice']);
  });

  it('of other tunes stand for themselves', () => {
    expect(brief([held(1, 1), held(1, 1, ['x', 'y'])])).toEqual([]);
    expect(brief([held(1, 2), held(2, 2, [...NAMES, 'h'])])).toEqual(['2 is missing', '1 is missing']);
  });
});
