/** Chord symbols: what the reader makes of `<harmony>`. */
import { describe, expect, test } from 'vitest';
import { attributes, note, readMeasure, readPart } from '../../support/musicxml.ts';

const measure = (content: string) => readMeasure(`${attributes()}${content}`);

describe('chord symbols', () => {
  const chords = (content: string) =>
    measure(`${content}${note('C4', 48)}`).chordSymbols.map(({ source: _, ...rest }) => rest);
  const root = (step: string, alter = '') =>
    `<root><root-step>${step}</root-step>${alter && `<root-alter>${alter}</root-alter>`}</root>`;

  test('root, kind, text, bass, degrees', () =>
    expect(
      chords(
        `<harmony>${root('F', '1')}<kind text="m7b5">half-diminished</kind><bass><bass-step>A</bass-step></bass><degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree><offset>12</offset></harmony>`,
      ),
    ).toEqual([
      {
        at: 12,
        root: { step: 'F', alter: 1 },
        kind: 'half-diminished',
        text: 'm7b5',
        bass: { step: 'A', alter: 0 },
        degrees: [{ value: 9, alter: -1, type: 'add' }],
      },
    ]));

  test('text that is empty is not text that is absent', () => {
    expect(chords(`<harmony>${root('C')}<kind text="">major</kind></harmony>`)[0]!.text).toBe('');
    expect(chords(`<harmony>${root('C')}<kind>major</kind></harmony>`)[0]!.text).toBeUndefined();
  });

  test('no chord', () =>
    expect(chords(`<harmony>${root('C')}<kind text="N.C.">none</kind></harmony>`)[0]).toMatchObject({
      root: undefined,
      kind: 'none',
    }));

  test('several chords in one element', () =>
    expect(
      chords(
        `<harmony>${root('C')}<kind>major</kind>${root('G')}<kind>dominant</kind><offset>12</offset></harmony>`,
      ),
    ).toMatchObject([
      { at: 12, root: { step: 'C' }, kind: 'major' },
      { at: 12, root: { step: 'G' }, kind: 'dominant' },
    ]));

  test('a chord that is said again at the same moment counts once', () => {
    const said = `<harmony>${root('E', '-1')}<kind>major</kind></harmony>`;
    const other = `<harmony>${root('C')}<kind>minor</kind></harmony>`;
    expect(chords(said + said + other + said).map(({ root: each }) => each?.step)).toEqual(['E', 'C', 'E']);
    const apart = measure(`${said}${note('C4', 24)}${said}${note('C4', 24)}`);
    expect(apart.chordSymbols.map(({ at }) => at)).toEqual([0, 24]);
  });

  test('a kind that MusicXML does not know keeps its name as text', () =>
    expect(chords(`<harmony>${root('C')}<kind>maj7</kind></harmony>`)[0]).toMatchObject({
      kind: 'other',
      text: 'maj7',
    }));

  test('functions are left out', () => {
    const part = readPart(
      `${attributes()}<harmony><function>IV</function><kind>major</kind></harmony>${note('C4', 48)}`,
    );
    expect(part.measures[0]!.chordSymbols).toEqual([]);
    expect(part.leftOut).toMatchObject([{ what: 'chords named by degree or function' }]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/inversion/
  test('inversions without a bass are said', () => {
    const leftOut = (inner: string) =>
      readPart(`${attributes()}<harmony>${root('C')}<kind>major</kind>${inner}</harmony>${note('C4', 48)}`)
        .leftOut;
    expect(leftOut('<inversion>1</inversion>')).toMatchObject([{ what: 'inversions of chords' }]);
    expect(leftOut('<inversion>0</inversion>')).toEqual([]);
    expect(leftOut('<inversion>1</inversion><bass><bass-step>E</bass-step></bass>')).toEqual([]);
  });

  test.each([
    root('H'),
    root('F', '999999999'),
    root('F', '0.5'),
    `${root('F')}<bass><bass-step>A</bass-step><bass-alter>-999999999</bass-alter></bass>`,
    `${root('F')}<degree><degree-value>9</degree-value><degree-alter>3</degree-alter></degree>`,
    `${root('F')}<degree><degree-value>NaN</degree-value></degree>`,
  ])('%s cannot be read, and is left out whole', content => {
    const part = readPart(`${attributes()}<harmony>${content}</harmony>${note('C4', 48)}`);
    expect(part.measures[0]!.chordSymbols).toEqual([]);
    expect(part.leftOut).toMatchObject([{ what: 'unreadable chord symbols' }]);
  });
});
