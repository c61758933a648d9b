/** Whatever is typed for a scale or a chord is read, or refused: nothing else comes of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseChordSymbol } from '../../src/lesson/chords/symbol.ts';
import { scaleNotes } from '../../src/lesson/scale/notes.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { keyName } from '../../src/score/names.ts';
import { keyNamed, nearestKey } from '../../src/score/transpose-to-key.ts';

/** Names of what every object has, which are in every dictionary that is one. */
const OF_OBJECTS = Object.getOwnPropertyNames(Object.prototype);

const words = fc.oneof(
  fc.constantFrom(...OF_OBJECTS, ...OF_OBJECTS.map(word => word.toUpperCase())),
  fc.constantFrom('major', 'm7', 'dorian', 'sus4', 'pentatonic'),
  fc.string({ maxLength: 12 }),
);
const typed = fc
  .tuple(fc.constantFrom('C', 'F#', 'b flat', 'H', ''), fc.constantFrom('', ' ', '7', '/G'), words)
  .map(parts => parts.join(''));

const comesTo = (read: () => unknown): string => {
  try {
    read();
    return 'read';
  } catch (error) {
    return error instanceof Refusal ? 'refused' : String(error);
  }
};

describe('any text', () => {
  it.each([
    ['a scale', scaleNotes],
    ['a chord', parseChordSymbol],
  ])('is %s, or refused', (_, read) => {
    fc.assert(
      fc.property(typed, text => {
        expect(['read', 'refused']).toContain(comesTo(() => read(text)));
      }),
      { numRuns: 2000 },
    );
  });
});

it.each(OF_OBJECTS)('"%s" is no scale, no chord and no mode', word => {
  expect(comesTo(() => scaleNotes(`C ${word}`))).toBe('refused');
  expect(comesTo(() => parseChordSymbol(`C${word}`))).toBe('refused');
  expect(keyNamed(`C ${word}`)).toBeUndefined();
  expect(nearestKey(`C ${word}`)).toBeUndefined();
  expect(keyName({ fifths: 1, mode: word })).toBe('1 sharp');
});
