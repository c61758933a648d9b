import { describe, expect, test } from 'vitest';
import type { LineMark } from '../../src/engrave/drawing/line.ts';
import type { Role } from '../../src/engrave/drawing/role.ts';
import { textWidth } from '../../src/engrave/font/face.ts';
import { type GlyphName, glyph } from '../../src/engrave/font/glyph.ts';
import { inked } from './layout.ts';
import { sheet, tuneOf } from './sheets.ts';

const measures = [
  { notes: 'C4q E4e F4e A4h' },
  { notes: 'A5h C4h~' },
  { notes: 'C4e3 D4e3 E4q3 F4h' },
  { notes: 'C4w' },
];
const triplet = (() => {
  const tune = tuneOf(measures);
  const [first, , third] = tune.measures[2]!.events;
  return {
    ...tune,
    tuplets: [
      {
        from: first!.id,
        to: third!.id,
        actual: 3,
        normal: 2,
        show: 'actual' as const,
        bracket: true,
        depth: 0,
      },
    ],
  };
})();
/** One staff space is 1 mm. */
const marks = inked(sheet(triplet, { staffSize: 4 }).pages);

const thicknesses = (role: Role) => [
  ...new Set(
    marks.flatMap(({ mark }) =>
      mark.role === role && mark.kind === 'line' ? [Number((mark as LineMark).thickness.toFixed(3))] : [],
    ),
  ),
];

describe('line thicknesses: the engraving defaults in the metadata of the reference font of SMuFL 1.4', () => {
  test.each<[Role, readonly number[]]>([
    ['staff', [0.13]],
    ['stem', [0.12]],
    ['ledger', [0.16]],
    ['tuplet', [0.16]],
    ['bar', [0.16, 0.5]],
  ])('%s', (role, expected) => {
    expect(thicknesses(role).sort()).toEqual(expected);
  });

  test('beams are half a space thick', () => {
    const beam = marks.find(({ mark }) => mark.role === 'beam')!.mark;
    const points = beam.kind === 'polygon' ? beam.points : [];
    expect(points[3]![1] - points[0]![1]).toBeCloseTo(0.5, 6);
  });

  test('ties are thin at their ends and thicker in the middle', () => {
    const tie = marks.find(({ mark }) => mark.role === 'tie')!.mark;
    expect(tie).toMatchObject({ kind: 'curve', ends: 0.1, middle: 0.22 });
  });

  test('ledger lines stand out 0.4 beyond their heads', () => {
    const head = marks.find(({ mark }) => mark.role === 'head')!.box;
    const ledger = marks.find(({ mark }) => mark.role === 'ledger')!.box;
    expect(head.left - ledger.left).toBeCloseTo(0.4, 6);
    expect(ledger.right - head.right).toBeCloseTo(0.4, 6);
  });
});

describe('the space that notes get', () => {
  test('grows with their length, by less than in proportion', () => {
    const tune = tuneOf([{ notes: 'A4w' }, { notes: 'A4h A4q A4e A4e' }, { notes: 'A4w' }, { notes: 'A4w' }]);
    const heads = inked(sheet(tune).pages).filter(
      ({ mark, group }) => mark.role === 'head' && group === 'measure-2',
    );
    const xs = heads.map(({ box }) => box.left);
    const [half, quarter, eighth] = [xs[1]! - xs[0]!, xs[2]! - xs[1]!, xs[3]! - xs[2]!];
    // Twice as long gets 1.4 to 1.6 times the room (common practice).
    for (const ratio of [half / quarter, quarter / eighth]) {
      expect(ratio).toBeGreaterThan(1.4);
      expect(ratio).toBeLessThan(1.6);
    }
  });

  test('makes longer measures wider within a system', () => {
    const tune = tuneOf([{ notes: 'A4h' }, { notes: 'A4h.' }, { notes: 'A4w' }]);
    const bars = inked(sheet(tune).pages)
      .filter(({ mark, box }) => mark.role === 'bar' && box.bottom - box.top < 9 && box.bottom - box.top > 7)
      .map(({ box }) => box.left)
      .sort((a, b) => a - b);
    expect(bars[2]! - bars[1]!).toBeGreaterThan(bars[1]! - bars[0]!);
  });
});

describe('what is taken from the fonts', () => {
  test('heads are one staff space high and stand on their line', () => {
    for (const name of ['headBlack', 'headHalf', 'headWhole'] as const) {
      const { top, bottom } = glyph(name);
      expect(bottom - top).toBeGreaterThan(0.98);
      expect(bottom - top).toBeLessThan(1.1);
      expect(top + bottom).toBeCloseTo(0, 1);
    }
  });
  test('figures of the time signature fill two spaces, and two of them stay apart', () => {
    for (const figure of '0123456789') {
      const { top, bottom } = glyph(`time${figure}` as GlyphName);
      expect(bottom - top).toBeGreaterThan(1.8);
      expect(top).toBeGreaterThan(-1);
      expect(bottom).toBeLessThan(1);
    }
  });
  test('widths add up without kerning', () => {
    expect(textWidth('AV', 'serif', 2)).toBeCloseTo(
      textWidth('A', 'serif', 2) + textWidth('V', 'serif', 2),
      9,
    );
  });
  test('fret figures are at least 2.5 mm high on a staff of 7.5 mm', () => {
    const digit = inked(sheet(tuneOf(measures), { staffSize: 7.5 }).pages).find(
      ({ mark }) => mark.role === 'digit',
    )!;
    expect(digit.box.bottom - digit.box.top).toBeGreaterThanOrEqual(2.5);
  });
});
