import { expect, test } from 'vitest';
import { keyAlter, neededAccidentals } from '../../src/score/accidentals.ts';
import { STEPS } from '../../src/score/pitch.ts';
import { attributes, note, notesIn, readMeasure } from '../support/musicxml.ts';

test('key signatures', () => {
  const altered = (fifths: number) =>
    STEPS.map(step => keyAlter({ fifths, mode: undefined }, step))
      .map(alter => ['b', '', '#'][alter + 1])
      .join(',');
  expect([altered(0), altered(2), altered(-3), altered(7)]).toEqual([
    ',,,,,,',
    '#,,,#,,,',
    ',,b,,,b,b',
    '#,#,#,#,#,#,#',
  ]);
});

/** Whether each note of a measure in D major needs an accidental. */
const needed = (names: string): string => {
  const notes = names.split(' ').map(each => note(each, 6));
  const measure = readMeasure(`${attributes('<key><fifths>2</fifths></key>')}${notes.join('')}`);
  const ids = neededAccidentals(notesIn(measure), measure.key, measure.changes);
  return notesIn(measure)
    .map(each => (ids.has(each.heads[0]!.id) ? 'x' : '.'))
    .join('');
};

test('an accidental holds for its line or space to the end of the measure', () => {
  expect(needed('F#4 C#5 D4')).toBe('...');
  expect(needed('F4 F4 F#4 F#4')).toBe('x.x.');
  expect(needed('F4 F5 F#5')).toBe('xxx');
  expect(needed('G#4 G4 Ab4 A4')).toBe('xxxx');
});

test('a tied-to note needs none, and sets none', () => {
  const measure = readMeasure(
    `${attributes()}${note('F#4', 12, { after: '<tie type="start"/>' })}${note('F#4', 12, { after: '<tie type="stop"/>' })}${note('F#4')}`,
  );
  const held = notesIn(measure);
  const rest = held.slice(1);
  expect(neededAccidentals(rest, measure.key, [])).toEqual(new Set([held[2]!.heads[0]!.id]));
});

test('a new key starts afresh', () => {
  const measure = readMeasure(
    `${attributes()}${note('F#4')}<attributes><key><fifths>1</fifths></key></attributes>${note('F#4')}${note('F4')}`,
  );
  const ids = neededAccidentals(notesIn(measure), measure.key, measure.changes);
  expect(notesIn(measure).map(each => ids.has(each.heads[0]!.id))).toEqual([true, false, true]);
});
