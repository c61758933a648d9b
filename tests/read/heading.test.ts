/** Titles, names and breaks. */
import { describe, expect, test } from 'vitest';
import { note, read, readPart, scoreOf } from '../support/musicxml.ts';

describe('heading', () => {
  const heading = (header: string) => {
    const {
      parts: _,
      division: __,
      ...rest
    } = read(scoreOf('', `<part id="P1"><measure number="1">${note('C4')}</measure></part>`, header));
    return rest;
  };

  test('titles and names', () =>
    expect(
      heading(
        '<work><work-title> The  Marsh </work-title></work><movement-title>Other</movement-title><identification><creator type="composer">A</creator><creator type="lyricist">B</creator><creator type="arranger">C</creator><creator/><rights>Free</rights><rights>Public</rights></identification>',
      ),
    ).toEqual({
      title: 'The Marsh',
      composer: 'A',
      lyricist: 'B',
      arranger: 'C',
      rights: ['Free', 'Public'],
    }));

  test('the movement is the title of a work without one', () =>
    expect(heading('<work/><movement-title>Air</movement-title>')).toEqual({ title: 'Air', rights: [] }));

  test('else what the first page prints: by what it says it is, or by size', () => {
    const credit = (words: string, type = '', size = 12) =>
      `<credit page="1">${type && `<credit-type>${type}</credit-type>`}<credit-words font-size="${size}">${words}</credit-words></credit>`;
    expect(heading(credit('Trad.', 'composer') + credit('Air', 'title'))).toMatchObject({
      title: 'Air',
      composer: 'Trad.',
    });
    expect(heading(credit('small') + credit('Large', '', 24))).toMatchObject({ title: 'Large' });
  });
});

test('breaks stand before the measure that follows them', () =>
  expect(
    readPart(
      `<print new-system="yes"/>${note('C4')}`,
      `<print new-system="yes"/>${note('C4')}`,
      `<print new-page="yes"/>${note('C4')}`,
    ).measures.map(each => each.breakBefore),
  ).toEqual([undefined, 'system', 'page']));
