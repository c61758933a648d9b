/** Stems: common practice, as in the published handbooks of engraving. One staff space is 1 mm here. */
import { describe, expect, test } from 'vitest';
import type { LineMark } from '../../src/engrave/drawing/line.ts';
import { inked } from './layout.ts';
import { crossedStems, tieFaults } from './rules.ts';
import { sheet, small, tuneOf } from './sheets.ts';

/** Lengths of the stems, from the middle of the head; upward ones are positive. */
function stems(notes: string): number[] {
  const marks = inked(small([{ notes }]).pages).map(({ mark }) => mark);
  const heads = marks.filter(({ role }) => role === 'head') as { y: number }[];
  const lines = marks.filter(({ role }) => role === 'stem') as LineMark[];
  return lines.map((line, i) => Math.round((heads[i]!.y - line.y2) * 100) / 100);
}

describe('a stem', () => {
  test('is an octave long', () => expect(stems('A4h E5h')).toEqual([3.5, -3.5]));
  test('goes down from the middle line', () => expect(stems('B4w')).toEqual([]));
  test('goes with its neighbours from the middle line', () => {
    expect(stems('A4q B4q A4q E5q').map(Math.sign)).toEqual([1, 1, 1, -1]);
    expect(stems('C5q B4q A4q A4q').map(Math.sign)).toEqual([-1, -1, 1, 1]);
  });
  test('reaches the middle line from beyond the first ledger line', () => {
    // A3 lies two ledger lines below: 4 spaces under the middle line; A6 6.5 above it.
    expect(stems('A3h A6h')).toEqual([4, -6.5]);
  });
});

describe('notes of one beam', () => {
  test('go the way of the farthest from the middle line', () => {
    expect(stems('F4e C5e F4e C5e A4h').map(Math.sign)).toEqual([1, 1, 1, 1, 1]);
    expect(stems('A5e A4e A5e A4e E5h').map(Math.sign)).toEqual([-1, -1, -1, -1, -1]);
  });
  test('keep stems of at least two and a half spaces', () => {
    for (const length of stems('A4e D4e A4e D4e F4s A4s C5s A4s F4q'))
      expect(Math.abs(length)).toBeGreaterThanOrEqual(2.5);
  });
});

test('a tie from a stem that points up to one that points down ends before it', () => {
  // The first C is beamed to a low note, and has its stem up with it.
  const tune = tuneOf([{ notes: 'G4h G4q E4e C5e~' }, { notes: 'C5h C5h' }]);
  const { pages } = sheet(tune, { sheet: 'quiz' });
  expect(crossedStems(pages)).toEqual([]);
  expect(tieFaults(tune, pages)).toEqual([]);
});
