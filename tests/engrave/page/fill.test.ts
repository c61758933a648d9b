/** Systems on pages: how far apart they stand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Slot, spreadSystems } from '../../../src/engrave/page/fill.ts';

const room = { top: 40, bottom: 280 };
const slotOf = (height: number): Slot => ({ above: height / 3, below: (height * 2) / 3 });
const slots = (count: number, height: number) => Array.from({ length: count }, () => slotOf(height));
const endOf = (all: readonly Slot[], ys: readonly number[]) => ys.at(-1)! + all.at(-1)!.below;

describe('gaps between systems', () => {
  test('fill a page that holds several', () => {
    const all = slots(5, 38);
    expect(endOf(all, spreadSystems(all, room, false).ys)).toBeCloseTo(room.bottom);
  });

  test.each([45, 70, 90])(
    'are less than half a system where two of %i mm are all that a page holds',
    height => {
      for (const isLast of [true, false]) {
        const { ys, gap } = spreadSystems(slots(2, height), room, isLast);
        expect(gap).toBeLessThan(height / 2);
        expect(ys[0]).toBeCloseTo(room.top + height / 3);
      }
    },
  );

  test('are never wider on the last page than on the one before, and never leave the page', () => {
    const height = fc.integer({ min: 20, max: 60 });
    fc.assert(
      fc.property(
        fc.array(height, { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 5, max: 30 }),
        (all, before) => {
          const some = all.map(slotOf);
          const { ys, gap } = spreadSystems(some, room, true, before);
          expect(gap).toBeLessThanOrEqual(before);
          expect(endOf(some, ys)).toBeLessThanOrEqual(room.bottom + 1e-9);
        },
      ),
    );
  });
});
