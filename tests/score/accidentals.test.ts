import fc from 'fast-check';
import { expect, test } from 'vitest';
import { keyAlter, neededAccidentals } from '../../src/score/accidentals.ts';
import type { AttributeChange, Key } from '../../src/score/model/attributes.ts';
import type { MusicEvent } from '../../src/score/model/event.ts';
import { type Pitch, STEPS } from '../../src/score/pitch.ts';
import { DIVISION, tuneOfMeasures } from '../support/melody.ts';
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

/** Pitches as a player reads them: with an accidental as it says, without as the line or space last said. */
const readBack = (
  events: readonly MusicEvent[],
  signed: ReadonlySet<number>,
  keyAt: (at: number) => Key,
): readonly Pitch[] => {
  const said = new Map<string, number>();
  let key = keyAt(0);
  return events.flatMap(event => {
    if (event.kind !== 'note') return [];
    if (keyAt(event.at) !== key) said.clear();
    key = keyAt(event.at);
    return event.heads.map(({ id, pitch: { step, alter, octave }, tieFrom }) => {
      if (tieFrom !== undefined) return { step, alter, octave };
      const line = `${step}${octave}`;
      if (signed.has(id)) said.set(line, alter);
      return { step, alter: said.get(line) ?? keyAlter(key, step), octave };
    });
  });
};

test('what is printed reads back as what is meant, and no accidental could be left out', () => {
  const pitches = fc.record({
    step: fc.constantFrom(...STEPS.slice(0, 4)),
    alter: fc.integer({ min: -1, max: 1 }),
    octave: fc.integer({ min: 4, max: 5 }),
  });
  const chords = fc.record({
    pitches: fc.uniqueArray(pitches, { maxLength: 3, selector: ({ step, octave }) => `${step}${octave}` }),
    tied: fc.boolean(),
  });
  const keys = fc.integer({ min: -7, max: 7 }).map((fifths): Key => ({ fifths, mode: undefined }));
  const changes = fc.option(fc.record({ beat: fc.nat(6), key: keys }), { nil: undefined });
  fc.assert(
    fc.property(fc.array(chords, { maxLength: 8 }), keys, changes, (drawn, first, change) => {
      const notes = drawn.map(each => ({ ...each, duration: DIVISION }));
      const { events } = tuneOfMeasures([{ number: '1', events: notes }]).measures[0]!;
      const at = (change?.beat ?? 0) * DIVISION;
      const clef: AttributeChange = { at: 0, clef: { sign: 'G', line: 2, octaveChange: 0 } };
      const told = change ? [clef, { at, key: change.key }] : [clef];
      const keyAt = (when: number): Key => (change && when >= at ? change.key : first);
      const needed = neededAccidentals(events, first, told);
      const meant = events.flatMap(event =>
        event.kind === 'note' ? event.heads.map(({ pitch }) => pitch) : [],
      );
      expect(readBack(events, needed, keyAt)).toEqual(meant);
      for (const id of needed) {
        const without = new Set(needed);
        without.delete(id);
        expect(readBack(events, without, keyAt)).not.toEqual(meant);
      }
    }),
  );
});
