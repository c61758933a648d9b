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
    ['', [1], ''],
    [' ', [1], ''],
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

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/data-types/ending-number/
  test('endings that show no number are counted on', () => {
    const ending = (number: string, repeat = '', text = '') =>
      `${barline('left', `<ending number="${number}" type="start">${text}</ending>`)}${note('C4', 48)}${barline('right', `<ending number="${number}" type="stop"/>${repeat}`)}`;
    const again = '<repeat direction="backward"/>';
    const numbers = (...measures: readonly string[]) =>
      readPart(`${attributes()}${note('C4', 48)}`, ...measures).measures.map(
        ({ left }) => left.ending?.numbers,
      );
    expect(numbers(ending(' ', again), ending(' '))).toEqual([undefined, [1], [2]]);
    expect(numbers(ending('1, 2', again), ending(''))).toEqual([undefined, [1, 2], [3]]);
    expect(numbers(ending('', again, '1.-3.'), ending('', '', '4.'))).toEqual([undefined, [1, 2, 3], [4]]);
    expect(numbers(ending('', again), note('C4', 48), ending('', again))).toEqual([
      undefined,
      [1],
      undefined,
      [1],
    ]);
  });

  test.each(['tick', 'short'])('as a %s are plain ones, and said to be', style => {
    const { measures, leftOut } = readPart(
      `${attributes()}${note('C4', 48)}${barline('right', `<bar-style>${style}</bar-style>`)}`,
    );
    expect(measures[0]!.right.style).toBe('regular');
    expect(leftOut).toMatchObject([
      { what: 'ticks and short bar lines, for which plain ones stand', count: 1 },
    ]);
  });

  test('within a measure are left out, and repeats there are named', () => {
    const inside = (inner: string) =>
      readPart(`${attributes()}${note('C4', 24)}${barline('middle', inner)}${note('C4', 24)}`).leftOut;
    expect(inside('<bar-style>dotted</bar-style>')).toMatchObject([{ what: 'bar lines within a measure' }]);
    expect(inside('<repeat direction="backward"/>')).toMatchObject([
      { what: 'repeats that begin or end within a measure' },
    ]);
  });

  const repeats = (...measures: readonly string[]) =>
    readPart(...measures).measures.map(({ left, right }) => [left.repeat, right.repeat]);

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/repeat/
  test('repeats on the other side of their bar line belong to the measure next to it', () => {
    const c = note('C4', 48);
    const style = '<bar-style>heavy-light</bar-style>';
    const measures = [
      `${attributes()}${c}${barline('right', `${style}<repeat direction="forward"/>`)}`,
      c,
      `${barline('left', '<repeat direction="backward" times="3"/>')}${c}`,
    ];
    expect(repeats(...measures)).toEqual([
      [false, false],
      [true, true],
      [false, false],
    ]);
    const [first, second] = readPart(...measures).measures;
    expect(first!.right.style).toBe('regular');
    expect(second!.right.times).toBe(3);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/sound/ (forward-repeat)
  test.each([
    ['a sound', '<sound forward-repeat="yes"/>'],
    [
      'a direction',
      '<direction><direction-type><words>x</words></direction-type><sound forward-repeat="yes"/></direction>',
    ],
  ])('%s starts a repeat that no bar line shows', (_, sign) => {
    const back = `${note('C4', 48)}${barline('right', '<repeat direction="backward"/>')}`;
    const expected = [
      [false, false],
      [true, true],
    ];
    expect(repeats(`${attributes()}${note('C4', 12)}`, sign + back)).toEqual(expected);
    expect(repeats(`${attributes()}${note('C4', 12)}${sign}`, back)).toEqual(expected);
  });

  test('a repeat without a direction is said', () =>
    expect(
      readPart(`${attributes()}${note('C4', 48)}${barline('right', '<repeat/>')}`).leftOut,
    ).toMatchObject([{ what: 'repeats that neither begin nor end' }]));

  test('a repeat that is to be made after a jump, too, is said', () =>
    expect(
      readPart(
        `${attributes()}${note('C4', 48)}${barline('right', '<repeat direction="backward" after-jump="yes"/>')}`,
      ).leftOut,
    ).toMatchObject([{ what: 'repeats that are made again after a jump' }]));
});
