/** How chord symbols are called, and how they keep clear of themselves. */
import { describe, expect, test } from 'vitest';
import { chordPieces } from '../../../src/engrave/content/chord-name.ts';
import { bounds } from '../../../src/engrave/drawing/mark.ts';
import { chordMarks } from '../../../src/engrave/measure/chord-marks.ts';
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

describe('where another face stands in for that of the symbols, a third wider', () => {
  test.each(['Bb7', 'G7', 'Am7', 'F#m7b5', 'Ebmaj7', 'Abm(maj7)', 'Gdim'])(
    '%s keeps its root clear',
    symbol => {
      const [root, ...others] = chordMarks(parseChordSymbol(symbol));
      if (root?.kind !== 'text') throw new Error('no root');
      const natural = bounds(root);
      const wider = (natural.right - natural.left) / 3;
      const right = natural.right + wider * { start: 1, middle: 0.5, end: 0 }[root.anchor];
      for (const other of others) expect(bounds(other).left).toBeGreaterThan(right - 0.01);
    },
  );
});
