/** The bar line that ends a tune. */
import { expect, test } from 'vitest';
import { type Barline, closing, PLAIN_BARLINE, rightBarline } from '../../src/score/model/barline.ts';

const styled = (style: Barline['style'], repeat = false): Barline => ({ ...PLAIN_BARLINE, style, repeat });

test('a regular one becomes final; a repeat, or any other that the file asks for, stays', () => {
  expect(closing(PLAIN_BARLINE)).toEqual({ ...PLAIN_BARLINE, style: 'final' });
  for (const asked of [styled('double'), styled('none'), styled('regular', true), styled('heavy', true)])
    expect(closing(asked)).toBe(asked);
});

test('only the last measure closes', () => {
  const measures = [{ right: PLAIN_BARLINE }, { right: styled('double') }, { right: PLAIN_BARLINE }];
  expect(measures.map((_, index) => rightBarline(measures, index).style)).toEqual([
    'regular',
    'double',
    'final',
  ]);
});
