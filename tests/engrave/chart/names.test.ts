/** How chords are called that are typed with more than one kind in one word. */
import { expect, test } from 'vitest';
import { chordPieces } from '../../../src/engrave/content/chord-name.ts';
import { parseChordSymbol } from '../../../src/lesson/chords/symbol.ts';

const named = (typed: string): string =>
  chordPieces(parseChordSymbol(typed))
    .map(({ text }) => text)
    .join('');

test.each([
  ['C7sus4', 'C7sus4'],
  ['D9sus4', 'D9sus4'],
  ['C13sus4', 'C13sus4'],
  ['C7sus2', 'C7sus2'],
  ['Csus4', 'Csus4'],
  ['Cadd9', 'C(add9)'],
  ['Eb6/9', 'E♭6(add9)'],
  ['C7b9', 'C7(♭9)'],
  ['C13b9', 'C13(♭9)'],
  ['E7no5', 'E7(no5)'],
  ['D/F#', 'D/F♯'],
])('%s is printed as %s', (typed, printed) => {
  expect(named(typed)).toBe(printed);
});
