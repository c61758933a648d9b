/** Layout rules that hold for any tune. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import type { SheetName } from '../../src/engrave/engrave.ts';
import { tunes } from '../emit/text/arbitrary.ts';
import { richTunes } from './arbitrary.ts';
import { breaks, centre, collisions, inked, outside } from './layout.ts';
import {
  beamFaults,
  crossedStems,
  endingFaults,
  letterFaults,
  stemFaults,
  systemsOf,
  tieFaults,
} from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

/** Staff space of the default staff, mm. */
const SP = 2;
const MARGIN = 15;
const SHEETS: readonly SheetName[] = ['tab', 'quiz', 'names', 'blank'];

/** Widths from bar line to bar line, of measures of one note that have one on both sides; heads have even ids. */
function measureWidths({ marks }: ReturnType<typeof systemsOf>[number]) {
  const heads = marks
    .filter(({ role }) => role === 'head')
    .map(mark => ({ of: mark.of!, box: bounds(mark) }));
  const bars = marks
    .filter(({ role }) => role === 'bar')
    .map(mark => bounds(mark).left)
    .sort((a, b) => a - b)
    .filter((x, i, all) => i === 0 || x - all[i - 1]! > 2);
  const first = Math.min(...heads.map(({ of }) => of));
  return heads.flatMap(({ of, box }) => {
    const left = bars.findLast(x => x < box.left);
    const right = bars.find(x => x > box.left);
    const isInner = of !== first && left !== undefined && right !== undefined;
    return isInner ? [{ measure: of / 2 - 1, width: right - left }] : [];
  });
}

/** Beside a cluster of seconds, which no hand would play, the fingers leave a steep slur no way. */
const isSlurAtCluster = (collision: string): boolean => /finger/.test(collision) && /slur/.test(collision);

describe('any tune', () => {
  test('has nothing that collides, and nothing outside the margins', () => {
    fc.assert(
      fc.property(fc.oneof(tunes, richTunes), fc.constantFrom(...SHEETS), (tune, name) => {
        const { pages } = sheet(tune, { sheet: name, fingers: 'all', positions: true });
        expect(collisions(pages, 0.06 * SP).filter(each => !isSlurAtCluster(each))).toEqual([]);
        expect(outside(pages, MARGIN)).toEqual([]);
        expect(endingFaults(pages)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  test('has note letters that stand apart', () => {
    fc.assert(
      fc.property(fc.oneof(tunes, richTunes), tune => {
        expect(letterFaults(sheet(tune, { sheet: 'names' }).pages)).toEqual([]);
      }),
      { numRuns: 30 },
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

  test('has stems neither short nor long, beams that rise at most a space, ties with both ends and over no stem', () => {
    fc.assert(
      fc.property(tunes, tune => {
        const { pages } = sheet(tune);
        expect(stemFaults(pages)).toEqual([]);
        expect(beamFaults(pages)).toEqual([]);
        expect(tieFaults(tune, pages)).toEqual([]);
        expect(crossedStems(pages)).toEqual([]);
      }),
      { numRuns: 40 },
    );
  });

  test('has wider measures where they last longer, within a system', () => {
    const values = ['A4e', 'A4q', 'A4q.', 'A4h', 'A4h.', 'A4w'];
    fc.assert(
      fc.property(fc.array(fc.nat(values.length - 1), { minLength: 4, maxLength: 24 }), picks => {
        const { pages } = sheet(tuneOf(picks.map(pick => ({ notes: values[pick]! }))));
        for (const system of systemsOf(pages)) {
          const widths = measureWidths(system);
          for (const a of widths)
            for (const b of widths)
              if (picks[a.measure]! < picks[b.measure]!) expect(a.width).toBeLessThan(b.width);
        }
      }),
      { numRuns: 40 },
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
      { numRuns: 40 },
    );
  });
});
