/** The brackets of endings, whole and in pieces. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Page } from '../../src/engrave/engrave.ts';
import type { Tune } from '../../src/score/tune.ts';
import { collisions } from './layout.ts';
import { endingFaults, systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

/** Endings of so many measures each, one after the other, after as many measures as are left. */
function withEndings(measures: number, lengths: readonly number[], perMeasure = 'C5q D5q E5q D5q'): Tune {
  const tune = tuneOf(Array.from({ length: measures }, () => ({ notes: perMeasure })));
  const total = lengths.reduce((sum, length) => sum + length, 0);
  const ends = lengths.map(
    (_, i) => measures - total + lengths.slice(0, i + 1).reduce((sum, each) => sum + each, 0),
  );
  const endingOf = (i: number) =>
    i < 0 ? undefined : { numbers: [i + 1], text: `${i + 1}.`, close: 'closed' as const };
  return {
    ...tune,
    measures: tune.measures.map((measure, index) => ({
      ...measure,
      left: { ...measure.left, ending: endingOf(ends.findIndex((end, i) => index === end - lengths[i]!)) },
      right: { ...measure.right, ending: endingOf(ends.indexOf(index + 1)) },
    })),
  };
}

/** Of all systems: level lines and hooks of the brackets, and how many figures there are in them. */
const strokesOf = (pages: readonly Page[]) => {
  const marks = systemsOf(pages).flatMap(system => system.marks.filter(({ role }) => role === 'ending'));
  const lines = marks.flatMap(mark => (mark.kind === 'line' ? [mark] : []));
  return {
    level: lines.filter(({ y1, y2 }) => y1 === y2).length,
    hooks: lines.filter(({ x1, x2 }) => x1 === x2).length,
    figures: marks.filter(({ kind }) => kind === 'text').length,
  };
};

describe('the brackets of endings', () => {
  test('stand apart, whatever their lengths', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 4 }),
        fc.integer({ min: 1, max: 4 }),
        (lengths, before) => {
          const measures = before + lengths.reduce((sum, length) => sum + length, 0);
          const { pages } = sheet(withEndings(measures, lengths), { sheet: 'quiz' });
          expect(endingFaults(pages)).toEqual([]);
          expect(collisions(pages, 0.12)).toEqual([]);
          const { hooks, figures, level } = strokesOf(pages);
          expect(hooks).toBe(2 * lengths.length);
          expect(figures).toBe(lengths.length);
          expect(level).toBeGreaterThanOrEqual(lengths.length);
        },
      ),
      { numRuns: 30 },
    );
  });

  test('go on in the next system without a hook or a figure, and close there', () => {
    const { pages } = sheet(withEndings(4, [3]), { sheet: 'quiz', measuresPerSystem: 2 });
    expect(systemsOf(pages)).toHaveLength(2);
    expect(strokesOf(pages)).toEqual({ level: 2, hooks: 2, figures: 1 });
  });
});
