/** Slurs and ties as drawn. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pointAt } from '../../src/engrave/drawing/curve.ts';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import { collisions } from './layout.ts';
import { systemsOf, tabSlurFaults } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

test('a slur from the system before begins beside its first note, and stays low', () => {
  const tune = tuneOf(
    [{ notes: 'A5h A5h' }, { notes: 'A5h A5h' }, { notes: 'A5h A5h' }, { notes: 'C5h A5h' }],
    { slurs: [{ from: 5, to: 13, placement: undefined }] },
  );
  const [, second] = systemsOf(sheet(tune, { measuresPerSystem: 2 }).pages);
  const [slur] = second!.marks.filter(({ role }) => role === 'slur').map(bounds);
  const heads = second!.marks.filter(({ role }) => role === 'head').map(bounds);
  const highest = Math.min(...heads.map(({ top }) => top));
  expect(slur!.top).toBeLessThan(highest);
  expect((highest - slur!.top) / second!.space).toBeLessThan(2);
});

describe('a slur on the tablature', () => {
  const curvesOf = (specs: readonly { readonly notes: string }[], slur: { from: number; to: number }) => {
    const tune = tuneOf(specs, { slurs: [{ ...slur, placement: undefined }] });
    return systemsOf(sheet(tune, { measuresPerSystem: 2 }).pages).map(({ marks, space }) => ({
      curves: marks.filter(({ role }) => role === 'tab-curve').map(bounds),
      digits: marks.filter(({ role }) => role === 'digit').map(bounds),
      right: Math.max(...marks.filter(({ role }) => role === 'tab-line').map(mark => bounds(mark).right)),
      space,
    }));
  };

  test('goes to the edge of a system where it is broken, and on from the edge of the next', () => {
    const specs = Array.from({ length: 4 }, () => ({ notes: 'A4h B4h' }));
    const [first, second] = curvesOf(specs, { from: 5, to: 11 });
    expect(first!.curves.length).toBe(1);
    expect(first!.curves[0]!.right).toBeCloseTo(first!.right, 1);
    expect(second!.curves.length).toBe(1);
    expect(second!.curves[0]!.left).toBeLessThan(second!.digits[0]!.left);
  });

  test('goes on through a system in which it neither begins nor ends', () => {
    const specs = Array.from({ length: 6 }, () => ({ notes: 'C4h A5h' }));
    const tune = tuneOf(specs, { slurs: [{ from: 3, to: 21, placement: undefined }] });
    const { pages } = sheet(tune, { measuresPerSystem: 2 });
    expect(tabSlurFaults(tune, pages)).toEqual([]);
    const [, middle] = systemsOf(pages);
    const [curve, ...others] = middle!.marks.filter(({ role }) => role === 'tab-curve').map(bounds);
    expect(others).toEqual([]);
    const lines = middle!.marks.filter(({ role }) => role === 'tab-line').map(bounds);
    expect(curve!.right).toBeCloseTo(Math.max(...lines.map(({ right }) => right)), 1);
    expect(curve!.bottom).toBeLessThan(Math.min(...lines.map(({ top }) => top)));
  });

  test('starts and ends over its figures, however steep, whatever is between', () => {
    const note = fc.constantFrom('C4q', 'E4q', 'A4q', 'C5q', 'E5q', 'A5q');
    fc.assert(
      fc.property(
        fc.array(note, { minLength: 8, maxLength: 8 }),
        fc.nat(6),
        fc.nat(6),
        (notes, a, length) => {
          const tune = tuneOf([{ notes: notes.slice(0, 4).join(' ') }, { notes: notes.slice(4).join(' ') }]);
          const events = tune.measures.flatMap(measure => measure.events.map(({ id }) => id));
          const slur = { from: events[a]!, to: events[Math.min(7, a + 1 + length)]!, placement: undefined };
          const slurred = { ...tune, slurs: [slur] };
          const { pages } = sheet(slurred, { measuresPerSystem: 2 });
          expect(tabSlurFaults(slurred, pages)).toEqual([]);
          expect(collisions(pages, 0.12)).toEqual([]);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('begins near its figure, where higher figures follow', () => {
    const [system] = curvesOf([{ notes: 'D4q D5q C5q B4q' }], { from: 1, to: 7 });
    const { curves, digits, space } = system!;
    // Its ends are its lowest points, and that of the low figure is the lower.
    expect((digits[0]!.top - curves[0]!.bottom) / space).toBeLessThan(1.6);
  });
});

test('a tie keeps clear of grace notes between its ends', () => {
  const plain = tuneOf([{ notes: 'C5h~ C5h' }]);
  const [measure] = plain.measures;
  const [first, last] = measure!.events;
  if (first?.kind !== 'note' || last?.kind !== 'note') throw new Error('no two notes');
  const grace = {
    ...first,
    id: 50,
    at: last.at,
    duration: 0,
    grace: 'plain' as const,
    value: { base: 8, dots: 0, ratio: undefined },
    heads: [
      { ...first.heads[0]!, id: 51, pitch: { step: 'E' as const, alter: 0, octave: 5 }, tieTo: undefined },
    ],
  };
  const tune = { ...plain, measures: [{ ...measure!, events: [first, grace, last] }] };
  const [{ marks }] = systemsOf(sheet(tune).pages) as [ReturnType<typeof systemsOf>[number]];
  const [head] = marks.filter(({ role }) => role === 'grace').map(bounds);
  const tie = marks.find(mark => mark.role === 'tie' && mark.kind === 'curve');
  if (tie?.kind !== 'curve') throw new Error('no tie');
  for (let i = 0; i <= 40; i++) {
    const [x, y] = pointAt(tie.points, i / 40);
    const isInside = x > head!.left && x < head!.right && y > head!.top && y < head!.bottom;
    expect(isInside).toBe(false);
  }
});

test('a slur goes round the ties under it, and starts and ends apart from them', () => {
  const pitch = fc.constantFrom('C4', 'F4', 'A4', 'C5', 'E5');
  const shape = fc.record({ pitch, next: pitch, tie: fc.boolean() });
  fc.assert(
    fc.property(fc.array(shape, { minLength: 3, maxLength: 3 }), fc.nat(1), (shapes, first) => {
      const notes = shapes.map(each => `${each.pitch}e${each.tie ? '~' : ''} ${each.pitch}e ${each.next}q`);
      const tune = tuneOf(notes.map(each => ({ notes: `${each} rh` })));
      const [events, later] = [first, first + 1].map(index => tune.measures[index]!.events);
      const slurs = [{ from: events![0]!.id, to: later![1]!.id, placement: undefined }];
      const [system] = systemsOf(sheet({ ...tune, slurs }, { sheet: 'quiz', measuresPerSystem: 3 }).pages);
      const curves = (role: string) =>
        system!.marks.flatMap(mark => (mark.kind === 'curve' && mark.role === role ? [mark] : []));
      const [slur] = curves('slur');
      const steps = Array.from({ length: 201 }, (_, i) => pointAt(slur!.points, i / 200));
      const isAbove = slur!.points[1][1] < slur!.points[0][1];
      for (const { points } of curves('tie')) {
        if (points[1][1] < points[0][1] !== isAbove) continue;
        for (const [x, y] of [0.02, 0.25, 0.5, 0.75, 0.98].map(t => pointAt(points, t))) {
          const over = steps.filter(([at]) => Math.abs(at - x) < 0.1 * system!.space);
          for (const [, at] of over)
            expect((isAbove ? y - at : at - y) / system!.space).toBeGreaterThan(0.25);
        }
      }
    }),
    { numRuns: 60 },
  );
});

test.each([[], [{ at: 0, key: { fifths: 3, mode: undefined } }]])(
  'a tie into a second ending comes from its bar line or new key, and the figure stands again in brackets',
  (...changes) => {
    const tune = tuneOf([{ notes: 'C5h A4h~' }, { notes: 'A4w' }, { notes: 'A4h C5h' }]);
    const [before, first, second] = tune.measures;
    const [from, held] = [before!.events[1], second!.events[0]];
    if (from?.kind !== 'note' || held?.kind !== 'note') throw new Error('no two notes');
    const tied = held.heads.map(head => ({ ...head, tieFrom: from.heads[0]!.id }));
    const events = [{ ...held, heads: tied }, ...second!.events.slice(1)];
    const { pages } = sheet({
      ...tune,
      measures: [before!, first!, { ...second!, events, key: changes[0]?.key ?? second!.key, changes }],
    });
    const [system] = systemsOf(pages);
    const ties = system!.marks.flatMap(mark => (mark.kind === 'curve' && mark.role === 'tie' ? [mark] : []));
    const bars = system!.marks.filter(({ role }) => role === 'bar' || role === 'key').map(bounds);
    expect(ties).toHaveLength(2);
    const half = ties.reduce((last, tie) => (tie.points[0][0] > last.points[0][0] ? tie : last));
    const [[start], , , [end]] = half.points;
    const heads = system!.marks.filter(({ role }) => role === 'head').map(bounds);
    expect(end).toBeGreaterThan(heads[3]!.left);
    expect(end).toBeLessThan(heads[3]!.right);
    const edges = bars.filter(({ left }) => left < heads[3]!.left).map(({ right }) => right);
    expect(Math.abs(start - Math.max(...edges))).toBeLessThan(1);
    const figures = system!.marks.flatMap(mark =>
      mark.role === 'digit' && mark.kind === 'text' ? [mark.text] : [],
    );
    expect(figures).toEqual(['3', '0', '(0)', '3']);
  },
);
