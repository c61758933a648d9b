import fc from 'fast-check';
import { expect, it } from 'vitest';
import { contentOf } from '../../../src/emit/text/content.ts';
import { signsFor } from '../../../src/emit/text/signs.ts';
import { spaceMeasures } from '../../../src/emit/text/spacing.ts';
import { systemsOf } from '../../../src/emit/text/systems.ts';
import { PLAIN_BARLINE } from '../../../src/score/model/barline.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { tunes, widths } from './arbitrary.ts';
import { lowestPlaces, tuneOf } from './tunes.ts';

const GUTTER = 2;
const SIGNS = signsFor(false);
const spaced = (tune: Tune) =>
  spaceMeasures(contentOf(tune, lowestPlaces(tune), SIGNS), {
    division: tune.division,
    clef: 'treble',
    signs: SIGNS,
    quarterRoom: 4,
  });

it('systems hold every measure once, in order, within the width or alone', () => {
  fc.assert(
    fc.property(tunes, widths, (tune, width) => {
      const measures = spaced(tune);
      const systems = systemsOf(measures, GUTTER, width);
      expect(systems.flatMap(system => system.measures.map(({ measure }) => measure))).toEqual(measures);
      for (const system of systems)
        if (system.measures.length > 1) expect(system.width).toBeLessThanOrEqual(width);
    }),
  );
});

it('there are as few systems as first-fit needs, which is the least for bar lines in order', () => {
  fc.assert(
    fc.property(tunes, widths, (tune, width) => {
      const measures = spaced(tune);
      let firstFit = 0;
      for (let from = 0; from < measures.length; firstFit++) {
        let to = from + 1;
        while (to < measures.length && systemsOf(measures.slice(from, to + 1), GUTTER, width).length === 1)
          to++;
        from = to;
      }
      expect(systemsOf(measures, GUTTER, width).length).toBeLessThanOrEqual(firstFit);
    }),
  );
});

it('measures of equal width come out evenly', () => {
  const tune = tuneOf(Array.from({ length: 10 }, () => ({ notes: 'A4q A4q A4q A4q' })));
  const counts = systemsOf(spaced(tune), GUTTER, 80).map(system => system.measures.length);
  expect(counts.sort()).toEqual([3, 3, 4]);
});

it('a longer note has no less room than a shorter one', () => {
  const letters = ['t', 's', 'e', 'e.', 'q', 'q.', 'h', 'h.', 'w'];
  const [measure] = spaced(tuneOf([{ notes: letters.map(letter => `A4${letter}`).join(' ') }]));
  const columns = measure!.entries.map(entry => entry.x);
  const rooms = columns.slice(1).map((column, index) => column - columns[index]!);
  expect(rooms).toEqual([...rooms].sort((a, b) => a - b));
});

it('a tune closes with a final bar line, where its file asks for no other (common practice)', () => {
  const endOf = (style: 'regular' | 'double' | 'final') => {
    const tune = tuneOf([{ notes: 'A4w' }, { notes: 'A4w', right: { ...PLAIN_BARLINE, style } }]);
    return systemsOf(spaced(tune), GUTTER, 80).at(-1)!.bars.at(-1)!.columns;
  };
  expect(endOf('regular')).toEqual(['thin', 'heavy-end']);
  expect(endOf('final')).toEqual(['thin', 'heavy-end']);
  expect(endOf('double')).toEqual(['thin', 'thin']);
});
