/** Ottava lines over the end of a system, and their signs. */
import { expect, test } from 'vitest';
import type { Direction } from '../../src/score/model/direction.ts';
import { systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

const source = { line: 1, part: 'P1', measure: '1' };
const shift = (octaves: number, end: boolean, at = 0): Direction => ({
  kind: 'octave-shift',
  octaves,
  end,
  at,
  source,
});

/** Words, level lines and hooks of the ottava lines, system by system. */
const drawn = (octaves: number) => {
  const tune = tuneOf([
    { notes: 'C5q C5q C5q C5q', directions: [shift(octaves, false)] },
    { notes: 'C5q C5q C5q C5q', directions: [shift(octaves, true, 96)] },
  ]);
  return systemsOf(sheet(tune, { measuresPerSystem: 1, sheet: 'quiz' }).pages).map(({ marks }) => {
    const own = marks.filter(({ role }) => role === 'words');
    const lines = own.flatMap(mark => (mark.kind === 'line' ? [mark] : []));
    return {
      words: own.flatMap(mark => (mark.kind === 'text' ? [mark.text] : [])),
      level: lines.filter(({ y1, y2 }) => y1 === y2).length,
      hooks: lines.filter(({ x1, x2 }) => x1 === x2).length,
    };
  });
};

test.each([
  [1, '8va'],
  [2, '15ma'],
  [3, '22ma'],
  [-1, '8vb'],
])('a line of %i octaves goes on in the next system, and is closed there', (octaves, sign) => {
  expect(drawn(octaves)).toEqual([
    { words: [sign], level: 1, hooks: 0 },
    { words: [sign], level: 1, hooks: 1 },
  ]);
});
