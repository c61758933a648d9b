/** Tuplet figures among the figures of fingers. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { engrave } from '../../src/engrave/engrave.ts';
import type { Finger } from '../../src/fingering/arrangement.ts';
import { collisions } from './layout.ts';
import { systemsOf, tupletFaults } from './rules.ts';
import { instrument, lowestPlaces, sheet, tuneOf } from './sheets.ts';

/** A tune of triplets, four in a measure. */
function triplets(notes: readonly string[]) {
  const count = Math.floor(notes.length / 12);
  const specs = Array.from({ length: count }, (_, i) => ({
    notes: notes
      .slice(12 * i, 12 * i + 12)
      .map(name => `${name}e3`)
      .join(' '),
  }));
  const tune = tuneOf(specs);
  const tuplets = tune.measures.flatMap(({ events }) =>
    [0, 3, 6, 9].map(first => ({
      from: events[first]!.id,
      to: events[first + 2]!.id,
      actual: 3,
      normal: 2,
      show: 'actual' as const,
      bracket: undefined,
      depth: 0,
    })),
  );
  return { ...tune, tuplets };
}

/** Lowest places, the fingers as given. */
function fingered(tune: ReturnType<typeof triplets>, fingers: readonly Finger[]) {
  const arrangement = lowestPlaces(tune, instrument('ukulele-low-g'));
  const placements = [...arrangement.placements].map(
    ([head, place], i) =>
      [head, { ...place, finger: place.fret === 0 ? (0 as const) : fingers[i]! }] as const,
  );
  return { ...arrangement, placements: new Map(placements) };
}

test.each(['changes', 'all'] as const)('the figure of a triplet stands in no row with fingers: %s', which => {
  const note = fc.record({
    name: fc.constantFrom('C4', 'E4', 'G4', 'A4', 'B4', 'C5', 'E5', 'G5'),
    finger: fc.constantFrom<Finger>(1, 2, 3, 4),
  });
  fc.assert(
    fc.property(fc.array(note, { minLength: 24, maxLength: 48 }), notes => {
      const tune = triplets(notes.map(({ name }) => name));
      const arrangement = fingered(
        tune,
        notes.map(({ finger }) => finger),
      );
      const { pages } = engrave(tune, arrangement, { sheet: 'quiz', fingers: which, positions: true });
      expect(tupletFaults(pages)).toEqual([]);
      expect(collisions(pages, 0.12)).toEqual([]);
    }),
    { numRuns: 40 },
  );
});

test('a tuplet over the end of a system has its figure in both, and an open bracket', () => {
  const plain = tuneOf([{ notes: 'C5h C5q C5q3 C5e3' }, { notes: 'C5q3 C5e3 C5h C5q' }]);
  const [before, after] = plain.measures.map(({ events }) => events);
  const ends = { from: before![2]!.id, to: after![1]!.id, actual: 3, normal: 2 };
  const tune = {
    ...plain,
    tuplets: [{ ...ends, show: 'actual' as const, bracket: undefined, depth: 0 }],
  };
  const drawn = (measuresPerSystem: number) =>
    systemsOf(sheet(tune, { sheet: 'quiz', measuresPerSystem }).pages).map(({ marks }) => {
      const own = marks.filter(({ role }) => role === 'tuplet');
      const hooks = own.filter(mark => mark.kind === 'line' && mark.x1 === mark.x2);
      return [own.filter(({ kind }) => kind === 'text').length, hooks.length];
    });
  expect(drawn(1)).toEqual([
    [1, 1],
    [1, 1],
  ]);
  expect(drawn(2)).toEqual([[1, 2]]);
});
