/** Repeats that one part has for all. */
import { expect, test } from 'vitest';
import { attributes, note, read, scoreOf } from '../support/musicxml.ts';

const AGAIN = '<barline location="right"><repeat direction="backward" times="3"/></barline>';
const c = note('C4', 48);

/** Two parts; each string is what one measure holds. */
const twoParts = (...parts: readonly (readonly string[])[]): readonly (readonly [boolean, number])[][] => {
  const ids = parts.map((_, i) => `P${i + 1}`);
  const list = ids.map(id => `<score-part id="${id}"><part-name/></score-part>`).join('');
  const inner = parts.map((measures, i) => {
    const content = measures.map((each, n) => `<measure number="${n + 1}">${each}</measure>`).join('');
    return `<part id="${ids[i]}">${content}</part>`;
  });
  return read(scoreOf(list, inner.join(''))).parts.map(({ measures }) =>
    measures.map(({ right }) => [right.repeat, right.times] as const),
  );
};

test('a part without repeats has those of another, as far as it goes', () => {
  const second = [`${attributes()}${c}`, `${c}${AGAIN}`, `${c}${AGAIN}`];
  expect(twoParts([`${attributes()}${c}`, c], second)[0]).toEqual([
    [false, 2],
    [true, 3],
  ]);
});

test('a part with repeats of its own keeps them', () => {
  const [first] = twoParts([`${attributes()}${c}${AGAIN}`, c], [`${attributes()}${c}`, `${c}${AGAIN}`]);
  expect(first).toEqual([
    [true, 3],
    [false, 2],
  ]);
});
