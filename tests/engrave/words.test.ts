/** Dynamics, words and tempo around the staff. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { union } from '../../src/engrave/drawing/box.ts';
import type { Direction } from '../../src/score/model/direction.ts';
import { DIVISION } from '../emit/text/tunes.ts';
import { centre, collisions, inked } from './layout.ts';
import { systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

describe('dynamics and words below the staff', () => {
  const direction = (kind: 'dynamic' | 'words', text: string, at: number) =>
    ({ kind, text, at, placement: 'below', source: { line: 1, part: 'P1', measure: '1' } }) as Direction;
  /** How many baselines they stand on. */
  function rowsOf(directions: readonly Direction[]): number {
    const tune = tuneOf([{ notes: 'A4q C4q A4q C5q', directions }]);
    const { pages } = sheet(tune);
    expect(collisions(pages, 0.1)).toEqual([]);
    const words = inked(pages).flatMap(({ mark }) =>
      mark.role === 'words' && 'y' in mark ? [mark.y.toFixed(3)] : [],
    );
    return new Set(words).size;
  }
  const crowded = ['fff', 'ppp', 'sffz', 'mp'].map((text, i) => direction('dynamic', text, i * DIVISION));
  test('are spread along one row where notes can make room', () => {
    expect(rowsOf(crowded)).toBe(1);
  });
  test('keep off the bar lines, and between two notes stand between them', () => {
    const dynamics = [1.5, 3.75].map(beat => direction('dynamic', 'p', beat * DIVISION));
    const { pages } = sheet(tuneOf([{ notes: 'A4q C4q A4q C5q', directions: dynamics }, { notes: 'A4w' }]));
    const boxes = (role: string) =>
      inked(pages).flatMap(({ mark, box }) => (mark.role === role ? [box] : []));
    const [first, second] = boxes('words');
    const heads = boxes('head');
    expect(first!.left).toBeGreaterThan(heads[1]!.left);
    expect(first!.left).toBeLessThan(heads[2]!.left);
    expect(second!.left).toBeGreaterThan(heads[2]!.right);
    for (const bar of boxes('bar')) expect(bar.left > second!.right || bar.right < second!.left).toBe(true);
  });
  test('have their middle under that of their head, or as near as the bar line before it lets them', () => {
    for (const text of ['p', 'mf', 'sfz', 'fff']) {
      const at = [0, 1, 3].map(beat => direction('dynamic', text, beat * DIVISION));
      const { pages } = sheet(tuneOf([{ notes: 'A4w' }, { notes: 'A4q C#4q A4q C5q', directions: at }]));
      const boxes = (role: string) =>
        inked(pages).flatMap(({ mark, box }) => (mark.role === role ? [box] : []));
      const heads = boxes('head');
      const letters = boxes('words');
      const size = letters.length / 3;
      const middles = [0, 1, 2].map(i => union(letters.slice(i * size, (i + 1) * size))!).map(centre);
      expect(middles[1]).toBeCloseTo(centre(heads[2]!), 2);
      expect(middles[2]).toBeCloseTo(centre(heads[4]!), 2);
      expect(middles[0]! - centre(heads[1]!)).toBeGreaterThan(-0.01);
      const bar = boxes('bar').filter(({ left }) => left < heads[1]!.left && left > heads[0]!.right);
      for (const { right } of bar) expect(letters[0]!.left).toBeGreaterThan(right);
    }
  });
  test('are set in as few rows as hold them', () => {
    expect(
      rowsOf([...crowded, direction('words', 'dolce', 0), direction('words', 'rit.', 3 * DIVISION)]),
    ).toBe(2);
  });
});

describe('words above the staff', () => {
  const above = { kind: 'words', at: 0, placement: 'above', source: { line: 1, part: 'P1', measure: '1' } };
  const at = (text: string) => ({ ...above, text }) as Direction;
  test('stand over their note, but at the head of the tune over its clef', () => {
    const specs = ['Gently', 'soft', 'rit.'].map(text => ({ notes: 'A4h C5h', directions: [at(text)] }));
    const { pages } = sheet(tuneOf(specs), { measuresPerSystem: 2 });
    const boxes = (role: string) =>
      inked(pages).flatMap(({ mark, box }) => (mark.role === role ? [box] : []));
    const [first, second, third] = boxes('words').map(({ left }) => left);
    const heads = boxes('head').map(({ left }) => left);
    expect(first).toBeLessThan(boxes('clef')[0]!.right);
    expect(Math.abs(second! - heads[2]!)).toBeLessThan(1);
    expect(Math.abs(third! - heads[4]!)).toBeLessThan(1);
  });
});

describe('tempo, words and chord symbols', () => {
  const source = { line: 1, part: 'P1', measure: '1' };
  const tempo = {
    kind: 'tempo',
    at: 0,
    perMinute: 96,
    beat: { base: 4, dots: 0, ratio: undefined },
    text: undefined,
    printed: true,
    source,
  } as Direction;
  test.each([
    [0.5, 30, 'headBreve', []],
    [8, 66.5, 'headBlack', ['flag8']],
    [32, 120, 'headBlack', ['flag32']],
  ])('a tempo of notes of 1/%d has their sign, and its number as it is', (base, perMinute, head, flags) => {
    const direction = { ...tempo, perMinute, beat: { base, dots: 0, ratio: undefined } } as Direction;
    const { pages } = sheet(tuneOf([{ notes: 'C5w', directions: [direction] }]));
    const marks = inked(pages).flatMap(({ mark }) => (mark.role === 'words' ? [mark] : []));
    expect(marks.flatMap(mark => (mark.kind === 'glyph' ? [mark.name] : []))).toEqual([head, ...flags]);
    expect(marks.flatMap(mark => (mark.kind === 'text' ? [mark.text] : []))).toEqual([`= ${perMinute}`]);
  });
  const rit = { kind: 'words', text: 'rit.', at: 0, placement: 'above', source } as Direction;
  test.each([0, 1, 2, 3])('stand on one baseline or clearly on two; first symbol over note %i', first => {
    for (const notes of ['C5q C5q C5q C5q', 'A4q G5q C5q A5q', 'E4q rq D5q B4q']) {
      const specs = [
        { notes, directions: [tempo], chords: { [first]: 'Bb' } },
        { notes, directions: [rit], chords: { 2: 'F' } },
      ];
      const { pages } = sheet(tuneOf(specs), { staffSize: 4 });
      expect(collisions(pages, 0.1)).toEqual([]);
      const baselines = (role: string) =>
        inked(pages).flatMap(({ mark }) => (mark.role === role && mark.kind === 'text' ? [mark.y] : []));
      for (const word of baselines('words'))
        for (const chord of baselines('chord')) {
          const apart = Math.abs(word - chord);
          expect(apart < 0.01 || apart > 1.2).toBe(true);
        }
    }
  });
});

test('positions whose numerals would stand a little higher or lower than each other share a baseline', () => {
  const note = fc.constantFrom('C4q', 'G4q', 'C5q', 'E5q', 'A5q', 'B5q');
  fc.assert(
    fc.property(fc.array(note, { minLength: 7, maxLength: 7 }), others => {
      const notes = ['A5q', ...others];
      const tune = tuneOf([{ notes: notes.slice(0, 4).join(' ') }, { notes: notes.slice(4).join(' ') }]);
      const { pages } = sheet(tune, { staffSize: 4, measuresPerSystem: 2, fingers: 'all', positions: true });
      expect(collisions(pages, 0.1)).toEqual([]);
      const baselines = inked(pages).flatMap(({ mark }) =>
        mark.role === 'position' && mark.kind === 'text' ? [mark.y.toFixed(3)] : [],
      );
      expect(baselines.length).toBeGreaterThan(0);
      const different = [...new Set(baselines)].map(Number).sort((a, b) => a - b);
      for (const [i, y] of different.slice(1).entries()) expect(y - different[i]!).toBeGreaterThan(1.5);
    }),
    { numRuns: 40 },
  );
});

test('tablature stands as far below the words of each system, whatever their letters', () => {
  const words = ['gay', 'sun,', 'sea', 'moor'];
  const tune = tuneOf(words.map(word => ({ notes: `C5h/${word} E5h/a` })));
  const { pages } = sheet(tune, { measuresPerSystem: 1 });
  const distances = systemsOf(pages).map(({ marks, space }) => {
    const baselines = marks.flatMap(mark => (mark.kind === 'text' && mark.role === 'lyric' ? [mark.y] : []));
    const lines = marks.flatMap(mark => (mark.kind === 'line' && mark.role === 'tab-line' ? [mark.y1] : []));
    return ((Math.min(...lines) - Math.max(...baselines)) / space).toFixed(3);
  });
  expect(distances).toHaveLength(words.length);
  expect(new Set(distances).size).toBe(1);
});
