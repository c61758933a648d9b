/** Who made a tune, in the order in which sheets name them (common practice). */
import { expect, test } from 'vitest';
import { creditLines } from '../../src/score/credits.ts';

test('composer, words and arranger have a line each, as far as they are known', () => {
  expect(creditLines({})).toEqual([]);
  expect(creditLines({ composer: '', lyricist: '', arranger: '' })).toEqual([]);
  expect(creditLines({ composer: 'A', lyricist: 'B', arranger: 'C' })).toEqual(['A', 'Words: B', 'Arr. C']);
  expect(creditLines({ lyricist: 'B' })).toEqual(['Words: B']);
});

test('one who made the tune and its words is named once', () => {
  expect(creditLines({ composer: 'A', lyricist: 'A' })).toEqual(['A']);
});
