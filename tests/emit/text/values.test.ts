/** Durations as letters, and what the legend says of them. */
import { expect, test } from 'vitest';
import { explainRhythm } from '../../../src/emit/text/values.ts';

test('letters and signs are explained that stand on the sheet, and no others', () => {
  expect(explainRhythm(['q.', 'e', 'rh', 'g', 'q^'])).toEqual([
    'h half',
    'q quarter',
    'e eighth',
    '. dotted',
    'r rest',
    'g grace note',
    '^ fermata',
  ]);
  // A rest that fills its measure is a word.
  expect(explainRhythm(['rest', 'rest^'])).toEqual(['^ fermata']);
});
