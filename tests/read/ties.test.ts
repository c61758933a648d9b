/** Which notes are tied. */
import { describe, expect, test } from 'vitest';
import { attributes, note, notesIn, readPart } from '../support/musicxml.ts';

describe('ties', () => {
  const start = { after: '<tie type="start"/>' };
  const stop = { after: '<tie type="stop"/>' };
  const headsOf = (...measures: readonly string[]) =>
    readPart(...measures).measures.flatMap(measure => notesIn(measure).flatMap(each => each.heads));

  test('join the nearest heads of one pitch', () => {
    const [a, b, c] = headsOf(
      `${attributes()}${note('C4', 12, start)}${note('C4', 36, stop)}`,
      note('C4', 48),
    );
    expect([a!.tieTo, b!.tieFrom, c!.tieFrom]).toEqual([b!.id, a!.id, undefined]);
  });

  test('are also read from how they look', () => {
    const look = (type: string) => ({ rest: `<notations><tied type="${type}"/></notations>` });
    const [a, b] = headsOf(`${attributes()}${note('C4', 24, look('start'))}${note('C4', 24, look('stop'))}`);
    expect(a!.tieTo).toBe(b!.id);
  });

  test('join enharmonic spellings of one sound', () => {
    const [a, b] = headsOf(`${attributes()}${note('C#4', 24, start)}${note('Db4', 24, stop)}`);
    expect(a!.tieTo).toBe(b!.id);
  });

  test('never join two pitches: the second is struck, and the loose ends are said', () => {
    const part = readPart(`${attributes()}${note('C4', 24, start)}${note('D4', 24, stop)}`);
    const [a, b] = notesIn(part.measures[0]!).flatMap(each => each.heads);
    expect(a).toMatchObject({ tieTo: undefined, looseTies: ['start'] });
    expect(b).toMatchObject({ tieFrom: undefined, looseTies: ['stop'] });
    expect(part.leftOut!.map(each => each.what)).toEqual(['ties without a start', 'ties without an end']);
  });

  test('reach into a second ending', () => {
    const ending = (number: number, inner: string, right = '') =>
      `<barline location="left"><ending number="${number}" type="start"/></barline>${inner}<barline location="right"><ending number="${number}" type="stop"/>${right}</barline>`;
    const [a, b, c] = headsOf(
      `${attributes()}${note('C4', 48, start)}`,
      ending(1, note('C4', 48, stop), '<repeat direction="backward"/>'),
      ending(2, note('C4', 48, stop)),
    );
    expect(a!.tieTo).toBe(b!.id);
    expect([b!.tieFrom, c!.tieFrom]).toEqual([a!.id, a!.id]);
  });
});
