/** Changes of key and time after the last note of a measure. */
import { expect, test } from 'vitest';
import { chordChart } from '../../src/lesson/chords/chart.ts';
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

test('a chord chart has the metre of the measure, not one that is put aside where it begins', () => {
  const tune = tuneFrom(
    `${attributes()}${note('C4', 48)}${change(0, 3)}`,
    `${change(0, 2)}${note('C4', 24)}`,
  );
  const { time } = chordChart(tune).measures[1]!;
  expect(time).toEqual(tune.measures[1]!.time);
});
