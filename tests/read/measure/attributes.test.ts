/** Metres and keys, and where they change. */
import { describe, expect, test } from 'vitest';
import { attributes, note, readPart } from '../../support/musicxml.ts';

describe('signatures', () => {
  const time = (inner: string, symbol = '') =>
    readPart(attributes(`<time${symbol && ` symbol="${symbol}"`}>${inner}</time>`) + note('C4', 12))
      .measures[0]!.time;

  test('metres of every kind', () => {
    expect(time('<beats>6</beats><beat-type>8</beat-type>')).toEqual({
      kind: 'metred',
      fractions: [{ beats: [6], beatType: 8 }],
      symbol: 'fraction',
    });
    expect(time('<beats>3+2</beats><beat-type>8</beat-type>')).toMatchObject({
      fractions: [{ beats: [3, 2], beatType: 8 }],
    });
    expect(
      time('<beats>3</beats><beat-type>8</beat-type><beats>2</beats><beat-type>4</beat-type>'),
    ).toMatchObject({
      fractions: [
        { beats: [3], beatType: 8 },
        { beats: [2], beatType: 4 },
      ],
    });
    expect(time('<beats>2</beats><beat-type>2</beat-type>', 'cut')).toMatchObject({ symbol: 'cut' });
    expect(time('<senza-misura/>')).toEqual({ kind: 'senza-misura' });
    expect(time('<beats>0</beats><beat-type>4</beat-type>')).toBeUndefined();
  });

  test('changes are listed where something changes, also within a measure', () => {
    const key = (fifths: number) =>
      `<attributes><key><fifths>${fifths}</fifths><mode>major</mode></key></attributes>`;
    const part = readPart(
      `${attributes('<key><fifths>1</fifths><mode>major</mode></key>')}${note('C4', 24)}${key(2)}${note('C4', 24)}`,
      `${key(2)}${note('C4', 48)}`,
      `${key(-1)}${note('C4', 48)}`,
    );
    expect(
      part.measures.map(({ key, changes }) => [key.fifths, changes.map(each => [each.at, each.key?.fifths])]),
    ).toEqual([
      [1, [[24, 2]]],
      [2, []],
      [-1, [[0, -1]]],
    ]);
  });

  test('keys that are no circle-of-fifths keys are left out; the notes say what sounds', () => {
    const part = readPart(
      `${attributes('<key><key-step>B</key-step><key-alter>-1</key-alter></key>')}${note('Bb3', 48)}`,
    );
    expect(part.measures[0]!.key.fifths).toBe(0);
    expect(part.leftOut).toHaveLength(1);
  });

  const leftOut = (...measures: readonly string[]) =>
    readPart(...measures).leftOut!.map(({ what, count }) => [what, count]);

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/time/ (number)
  test('of several staves the first has the say; others are told where they differ', () => {
    const staff = (number: number, beats: number, fifths: number) =>
      `<key number="${number}"><fifths>${fifths}</fifths></key><time number="${number}"><beats>${beats}</beats><beat-type>4</beat-type></time>`;
    const two = (beats: number, fifths: number) => attributes(staff(1, 4, 1) + staff(2, beats, fifths));
    const measure = readPart(two(3, -2) + note('C4', 48)).measures[0]!;
    expect(measure.time).toMatchObject({ fractions: [{ beats: [4] }] });
    expect(measure.key.fifths).toBe(1);
    expect(leftOut(two(3, -2))).toEqual([
      ['key signatures of lower staves', 1],
      ['time signatures of lower staves', 1],
    ]);
    expect(leftOut(two(4, 1))).toEqual([]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/measure-style/
  test('signs in the place of notes are named, each once', () => {
    const style = (inner: string) =>
      `<attributes><measure-style>${inner}</measure-style></attributes>${note('C4', 48)}`;
    expect(
      leftOut(
        attributes() + style('<slash type="start"/>'),
        style('<slash type="stop"/>'),
        style('<measure-repeat type="start">1</measure-repeat>'),
        style('<measure-repeat type="stop"/>') + style('<multiple-rest>2</multiple-rest>'),
        style('<beat-repeat type="start"/>'),
      ),
    ).toEqual([
      ['slashes', 1],
      ['measure-repeat signs', 1],
      ['beat-repeat signs', 1],
    ]);
  });

  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/time/ (print-object)
  // https://www.w3.org/2021/06/musicxml40/musicxml-reference/elements/double/
  test('hidden metres and doublings are said', () =>
    expect(
      leftOut(
        attributes(
          '<time print-object="no"><beats>2</beats><beat-type>4</beat-type></time><transpose><chromatic>0</chromatic><double/></transpose>',
        ),
      ),
    ).toEqual([
      ['doublings at the octave', 1],
      ['marks that time signatures are not to be printed', 1],
    ]));
});
