/** Repeats, endings and the looks of bar lines. */
import { describe, expect, test } from 'vitest';
import { attributes, note, readMeasure, readPart } from '../../support/musicxml.ts';

const measure = (content: string) => readMeasure(`${attributes()}${content}`);

describe('bar lines', () => {
  const barline = (location: string, inner: string) =>
    `<barline${location && ` location="${location}"`}>${inner}</barline>`;

  test('repeats, with the number of times', () => {
    const { left, right } = measure(
      `${barline('left', '<bar-style>heavy-light</bar-style><repeat direction="forward"/>')}${note('C4', 48)}${barline('right', '<bar-style>light-heavy</bar-style><repeat direction="backward" times="3"/>')}`,
    );
    expect(left).toMatchObject({ style: 'reverse-final', repeat: true });
    expect(right).toMatchObject({ style: 'final', repeat: true, times: 3 });
  });

  test('without a location are at the right; a repeat that opens before all notes is at the left', () => {
    const { left, right } = measure(
      `${barline('', '<repeat direction="forward"/>')}${note('C4', 48)}${barline('', '<bar-style>light-light</bar-style>')}`,
    );
    expect(left.repeat).toBe(true);
    expect(right.style).toBe('double');
  });

  const ended = (number: string, type: string, text = '') => {
    const part = readPart(
      `${attributes()}${barline('left', `<ending number="${number}" type="start">${text}</ending>`)}${note('C4', 48)}`,
      `${note('C4', 48)}${barline('right', `<ending number="${number}" type="${type}"/>`)}`,
    );
    return [part.measures[0]!.left.ending, part.measures[1]!.right.ending];
  };

  test.each([
    ['1', [1], '1'],
    ['1, 2', [1, 2], '1, 2'],
    ['1,2,3', [1, 2, 3], '1,2,3'],
    ['1-3', [1, 2, 3], '1-3'],
    ['', [], ''],
  ])('endings: "%s"', (list, numbers, text) => {
    expect(ended(list, 'stop')).toMatchObject([
      { numbers, text, close: 'closed' },
      { numbers, text, close: 'closed' },
    ]);
  });

  test('endings that stay open, and their own text', () =>
    expect(ended('2', 'discontinue', 'last time')[1]).toEqual({
      numbers: [2],
      text: 'last time',
      close: 'open',
    }));

  test('endings that the file leaves incomplete are completed or dropped, and said', () => {
    const part = readPart(
      `${attributes()}${note('C4', 48)}${barline('right', '<ending number="1" type="stop"/>')}`,
      `${barline('left', '<ending number="1" type="start"/>')}${note('C4', 48)}`,
      `${note('C4', 48)}${barline('right', '<repeat direction="backward"/>')}`,
      `${barline('left', '<ending number="2" type="start"/>')}${note('C4', 48)}`,
    );
    expect(part.measures.map(({ left, right }) => [left.ending?.text, right.ending?.text])).toEqual([
      [undefined, undefined],
      ['1', undefined],
      [undefined, '1'],
      ['2', '2'],
    ]);
    expect(part.leftOut!.map(({ what, count }) => [what, count])).toEqual([
      ['endings without a start', 1],
      ['endings without an end', 2],
    ]);
  });

  test('within a measure are left out', () => {
    const part = readPart(
      `${attributes()}${note('C4', 24)}${barline('middle', '<bar-style>dotted</bar-style>')}${note('C4', 24)}`,
    );
    expect(part.leftOut).toMatchObject([{ what: 'bar lines within a measure' }]);
  });
});
