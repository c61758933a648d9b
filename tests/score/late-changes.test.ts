/** Changes of key and time after the last note of a measure. */
import { expect, test } from 'vitest';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const change = (fifths: number, beats?: number) =>
  `<attributes><key><fifths>${fifths}</fifths></key>${
    beats === undefined ? '' : `<time><beats>${beats}</beats><beat-type>4</beat-type></time>`
  }</attributes>`;

test('they stand at the start of the next measure, before its own; at the end of the tune nowhere', () => {
  const tune = tuneFrom(
    `${attributes()}${note('C4', 48)}${change(2, 3)}`,
    `${note('C4', 36)}${change(1)}`,
    `${change(-1)}${note('C4', 36)}${change(3)}`,
  );
  const changes = tune.measures.map(measure => measure.changes.map(({ at, key }) => [at, key?.fifths]));
  expect(changes).toEqual([
    [],
    [[0, 2]],
    [
      [0, 1],
      [0, -1],
    ],
  ]);
  expect(tune.measures[1]!.changes[0]!.time).toEqual(tune.measures[1]!.time);
});
