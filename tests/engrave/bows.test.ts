/** Curves over what is under them. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pointAt } from '../../src/engrave/drawing/curve.ts';
import { clearingBow } from '../../src/engrave/system/bows.ts';

test('a bow of any length clears what stands half a space or more from its ends', () => {
  const drawn = fc.record({
    length: fc.integer({ min: 4, max: 90 }),
    drop: fc.integer({ min: -3, max: 3 }),
    /** Distance of the obstacle from one of the ends, staff spaces. */
    before: fc.double({ min: 0.5, max: 1.9, noNaN: true }),
    higher: fc.double({ min: 0, max: 2, noNaN: true }),
    atStart: fc.boolean(),
  });
  fc.assert(
    fc.property(drawn, ({ length, drop, before, higher, atStart }) => {
      const [from, to] = [
        { x: 0, y: 0 },
        { x: length, y: drop },
      ];
      const end = atStart ? from : to;
      const obstacle = { x: atStart ? before : length - before, y: end.y - higher };
      const { points } = clearingBow({ role: 'tab-curve', from, to, side: -1, obstacles: [obstacle], of: 1 });
      const steps = Array.from({ length: 2001 }, (_, i) => pointAt(points, i / 2000));
      const [, y] = steps.reduce((a, b) =>
        Math.abs(b[0] - obstacle.x) < Math.abs(a[0] - obstacle.x) ? b : a,
      );
      expect(y).toBeLessThan(obstacle.y - 0.25);
    }),
  );
});
