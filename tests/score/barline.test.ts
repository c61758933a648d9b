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
  const left = PLAIN_BARLINE;
  const measures = [
    { left, right: PLAIN_BARLINE },
    { left, right: styled('double') },
    { left, right: PLAIN_BARLINE },
  ];
  expect(measures.map((_, index) => rightBarline(measures, index).style)).toEqual([
    'regular',
    'double',
    'final',
  ]);
});

test('a plain one is what the next measure asks for; where a repeat starts, it stays', () => {
  const between = (right: Barline, left: Barline) =>
    rightBarline(
      [
        { left: PLAIN_BARLINE, right },
        { left, right: PLAIN_BARLINE },
      ],
      0,
    ).style;
  expect(between(PLAIN_BARLINE, styled('double'))).toBe('double');
  expect(between(styled('final'), styled('dotted'))).toBe('final');
  expect(between(styled('regular', true), styled('double'))).toBe('regular');
  expect(between(PLAIN_BARLINE, styled('reverse-final', true))).toBe('regular');
});
