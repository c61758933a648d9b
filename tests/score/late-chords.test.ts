/** A chord symbol after the last note of a measure. */
import { expect, test } from 'vitest';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const chord = (step: string) =>
  `<harmony><root><root-step>${step}</root-step></root><kind>major</kind></harmony>`;

test('it holds from the next measure on, before a symbol that stands there', () => {
  const tune = tuneFrom(
    `${attributes()}${chord('C')}${note('C4', 48)}${chord('G')}`,
    `${note('C4', 48)}${chord('F')}`,
    `${chord('A')}${note('C4', 48)}${chord('D')}`,
  );
  const symbols = tune.measures.map(measure => measure.chordSymbols.map(({ at, root }) => [at, root?.step]));
  expect(symbols).toEqual([
    [[0, 'C']],
    [[0, 'G']],
    [
      [0, 'F'],
      [0, 'A'],
      [48, 'D'],
    ],
  ]);
});
