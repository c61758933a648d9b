/** A change of key or time after the last note of a measure. */
import { expect, test } from 'vitest';
import { withoutLateChanges } from '../../src/score/melody/late-changes.ts';
import type { AttributeChange } from '../../src/score/model/attributes.ts';
import { bars } from '../support/melody.ts';

const key = (fifths: number, at: number): AttributeChange => ({ at, key: { fifths, mode: 'major' } });

/** Measures of four quarter notes, 48 ticks each, with these changes. */
const measuresOf = (...changes: readonly (readonly AttributeChange[])[]) =>
  bars(...changes.map(() => 'C4 C4 C4 C4')).measures.map((measure, index) => ({
    ...measure,
    changes: changes[index]!,
  }));

test('it stands at the next measure, before what changes there', () => {
  const moved = withoutLateChanges(measuresOf([key(1, 24), key(2, 48)], [key(3, 12)], []));
  expect(moved.map(({ changes }) => changes)).toEqual([[key(1, 24)], [key(2, 0), key(3, 12)], []]);
});

test('after the last measure it changes nothing', () => {
  expect(withoutLateChanges(measuresOf([], [key(4, 48)])).map(({ changes }) => changes)).toEqual([[], []]);
});

test('a measure of no length keeps what changes in it', () => {
  const [first, last] = measuresOf([key(1, 0)], []);
  const empty = { ...first!, length: 0, events: [] };
  expect(withoutLateChanges([empty, last!]).map(({ changes }) => changes)).toEqual([[key(1, 0)], []]);
});

test('measures without such a change are left as they are', () => {
  const measures = measuresOf([key(1, 12)], []);
  expect(withoutLateChanges(measures)[0]).toBe(measures[0]);
});
