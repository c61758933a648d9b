/** How numbers are written: lengths with one decimal, costs with two, lists that end (the project's own rules). */
import { expect, test } from 'vitest';
import {
  beatText,
  counted,
  mmNumber,
  mmText,
  pointsNumber,
  pointsText,
  shortList,
} from '../../src/score/numbers.ts';

test('lengths have one decimal in mm, costs two in points, beats two at most', () => {
  expect([mmText(70), mmText(66.06), pointsText(1), pointsText(0.694)]).toEqual([
    '70.0 mm',
    '66.1 mm',
    '1.00',
    '0.69',
  ]);
  expect([1, 2.5, 11 / 3].map(beatText)).toEqual(['1', '2.5', '3.67']);
});

test('in data lengths are tenths of a mm, costs thousandths of a point', () => {
  expect([66.06, 70, 0.04].map(mmNumber)).toEqual([66.1, 70, 0]);
  expect([0.6944, 1.2, 3].map(pointsNumber)).toEqual([0.694, 1.2, 3]);
});

test('one is singular', () => {
  expect([0, 1, 2].map(count => counted(count, 'note'))).toEqual(['0 notes', '1 note', '2 notes']);
});

test('of a list eight are named, and the others counted', () => {
  const names = ['a', 'b', 'c', 'd', 'e', 'f', 'g', 'h', 'i', 'j'];
  expect(shortList(names.slice(0, 8))).toBe('a, b, c, d, e, f, g, h');
  expect(shortList(names.slice(0, 9))).toBe('a, b, c, d, e, f, g, h and 1 more');
  expect(shortList(names)).toMatch(/h and 2 more$/);
});
