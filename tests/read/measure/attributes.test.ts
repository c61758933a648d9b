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
});
