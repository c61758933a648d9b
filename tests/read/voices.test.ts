/** Which notes make a voice. */
import { describe, expect, test } from 'vitest';
import { attributes, note, readMeasure, readPart } from '../support/musicxml.ts';

const voice = (id: string, staff?: number): string =>
  `<voice>${id}</voice>${staff === undefined ? '' : `<type>quarter</type><staff>${staff}</staff>`}`;

const backup = (ticks: number): string => `<backup><duration>${ticks}</duration></backup>`;
const forward = (ticks: number): string => `<forward><duration>${ticks}</duration></forward>`;

describe('voices', () => {
  test('are what the file numbers, in the order in which they appear', () => {
    const { voices } = readMeasure(
      `${attributes()}${note('C4', 48, { after: voice('5') })}${backup(48)}${note('E3', 48, { after: voice('low') })}`,
    );
    expect(voices.map(each => each.id)).toEqual(['5', 'low']);
  });

  test('stay one voice across staves', () => {
    const { voices } = readMeasure(
      `${attributes()}${note('C4', 24, { after: voice('1', 1) })}${note('C3', 24, { after: voice('1', 2) })}`,
    );
    expect(voices).toMatchObject([{ id: '1', staff: 1, events: [{ at: 0 }, { at: 24 }] }]);
  });

  test('are told apart where staves use one number at the same time, in every measure', () => {
    const part = readPart(
      `${attributes()}${note('C4', 48, { after: voice('1', 1) })}${backup(48)}${note('C3', 48, { after: voice('1', 2) })}`,
      note('D3', 48, { after: voice('1', 2) }),
    );
    expect(part.measures.map(each => each.voices.map(({ id }) => id))).toEqual([['1', '1/2'], ['1/2']]);
  });

  test('make voices of their own where they overlap', () => {
    const { voices } = readMeasure(`${attributes()}${note('C4', 48)}${backup(48)}${note('E4', 48)}`);
    expect(voices.map(each => each.id)).toEqual(['1', '1b']);
  });

  test('are in order of time, in whatever order the file writes them', () => {
    const grace = note('B3', 0, { before: '<grace/>' });
    const { voices } = readMeasure(
      `${attributes()}${forward(24)}${note('E4', 24)}${backup(48)}${note('C4', 12)}${grace}${note('D4', 12)}`,
    );
    expect(voices.map(({ id, events }) => [id, events.map(({ at }) => at)])).toEqual([
      ['1', [0, 12, 12, 24]],
    ]);
  });

  const ids = (...measures: readonly string[]) =>
    readPart(...measures).measures.map(({ voices }) => voices.map(({ id }) => id));
  const half = (id: string, staff = 1) => note('C4', 24, { after: voice(id, staff) });
  const rest = (id: string, staff = 1) => note('r', 24, { after: voice(id, staff) });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/voice/
  test('of a staff that nowhere has two at the same time are one, under its first number', () => {
    const part = readPart(`${attributes()}${half('1')}${half('2')}`, half('2') + half('2'), half('1'));
    expect(part.measures.map(({ voices }) => voices.map(({ id, events }) => [id, events.length]))).toEqual([
      [['1', 2]],
      [['1', 2]],
      [['1', 1]],
    ]);
  });

  test('stay apart where any two are together once, if only for a rest, or have a staff each', () => {
    const apart = [['1'], ['2'], ['1', '2']];
    expect(ids(`${attributes()}${half('1')}`, half('2'), half('1') + backup(24) + half('2'))).toEqual(apart);
    expect(ids(`${attributes()}${half('1')}`, half('2'), half('1') + backup(24) + rest('2'))).toEqual(apart);
    expect(ids(`${attributes()}${half('1')}`, half('2', 2))).toEqual([['1'], ['2']]);
    expect(ids(`${attributes()}${half('1')}`, half('2') + backup(24) + half('3'))).toEqual([
      ['1'],
      ['2', '3'],
    ]);
  });

  test('may start within a measure', () => {
    const { voices } = readMeasure(`${attributes()}${forward(24)}${note('C4', 24)}`);
    expect(voices[0]!.events).toMatchObject([{ at: 24, duration: 24 }]);
  });
});
