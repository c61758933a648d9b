/** Layout rules that hold for any tune. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { LineMark } from '../../src/engrave/drawing/line.ts';
import type { PolygonMark } from '../../src/engrave/drawing/polygon.ts';
import type { SheetName } from '../../src/engrave/engrave.ts';
import { tunes } from '../emit/text/arbitrary.ts';
import { richTunes } from './arbitrary.ts';
import { breaks, centre, collisions, inked, outside } from './layout.ts';
import { sheet } from './sheets.ts';

/** Staff space of the default staff, mm. */
const SP = 2;
const MARGIN = 15;
const SHEETS: readonly SheetName[] = ['tab', 'quiz', 'names', 'blank'];

const stems = (pages: Parameters<typeof inked>[0]) =>
  inked(pages).filter(({ mark }) => mark.role === 'stem') as { mark: LineMark }[];

describe('any tune', () => {
  test('has nothing that collides, and nothing outside the margins', () => {
    fc.assert(
      fc.property(fc.oneof(tunes, richTunes), fc.constantFrom(...SHEETS), (tune, name) => {
        const { pages } = sheet(tune, { sheet: name, fingers: 'all', positions: true });
        expect(collisions(pages, 0.06 * SP)).toEqual([]);
        expect(outside(pages, MARGIN)).toEqual([]);
      }),
      { numRuns: 60 },
    );
  });

  test('breaks alike on all kinds of sheet', () => {
    fc.assert(
      fc.property(tunes, tune => {
        const [first, ...others] = SHEETS.map(name => breaks(sheet(tune, { sheet: name }).pages));
        for (const other of others) expect(other).toEqual(first);
      }),
      { numRuns: 30 },
    );
  });

  test('has stems of at least 2.5 sp, and beams that rise at most 1.2 sp', () => {
    fc.assert(
      fc.property(tunes, tune => {
        const { pages } = sheet(tune);
        for (const { mark } of stems(pages)) expect(Math.abs(mark.y2 - mark.y1)).toBeGreaterThan(2.3 * SP);
        for (const { mark } of inked(pages)) {
          if (mark.role !== 'beam') continue;
          const [first, second] = (mark as PolygonMark).points;
          expect(Math.abs(first![1] - second![1])).toBeLessThan(1.25 * SP);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('has each figure straight under its head', () => {
    fc.assert(
      fc.property(tunes, tune => {
        const marks = inked(sheet(tune).pages);
        const heads = new Map(
          marks.filter(({ mark }) => mark.role === 'head').map(each => [each.mark.of, each.box]),
        );
        for (const { mark, box } of marks)
          if (mark.role === 'digit')
            expect(Math.abs(centre(box) - centre(heads.get(mark.of)!))).toBeLessThan(0.02 * SP);
      }),
      { numRuns: 60 },
    );
  });
});
