/** Ways to hold several strings at once, against every choice of fingers and position. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { handOn } from '../../src/fingering/hand.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { holdings } from '../../src/fingering/shapes.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { soundAt } from '../../src/instrument/places.ts';
import { bars } from '../support/melody.ts';
import { shareOf } from './share.ts';
import { holdByTrial } from './trial/grips.ts';

const FREE = { string: undefined, fret: undefined, finger: undefined };

/** Frets near each other, and open strings, on some of the strings in any order. */
const shapes = fc.constantFrom(...INSTRUMENTS).chain(instrument =>
  fc.record({
    instrument: fc.constant(instrument),
    low: fc.integer({ min: 1, max: 7 }),
    lowest: fc.integer({ min: 1, max: 7 }),
    held: fc.uniqueArray(
      fc.record({
        string: fc.integer({ min: 1, max: instrument.strings.length }),
        up: fc.integer({ min: -1, max: 5 }),
      }),
      { minLength: 2, maxLength: 5, selector: each => each.string },
    ),
  }),
);

test('holdings are all that a hand can do, and nothing else', () => {
  const written = (touches: readonly { string: number; fret: number; finger: number }[], position: number) =>
    `${position}: ${touches.map(({ string, fret, finger }) => `${string}/${fret}[${finger}]`).join(' ')}`;
  let found = 0;
  let refused = 0;
  fc.assert(
    fc.property(shapes, ({ instrument, low, lowest, held }) => {
      const hand = handOn(instrument);
      const places = held.map(({ string, up }) => ({ string, fret: up < 0 ? 0 : low + up }));
      const rest = [2, 5];
      const ask = {
        sounds: places.map(place => soundAt(instrument, place)),
        window: undefined,
        fixed: places.map(() => FREE),
      };
      const options = places.map(place => [{ ...place, fit: 'inside' as const }]);
      const tried = holdByTrial(hand, ask, options, rest, lowest);
      const answered = holdings(hand, places, rest, lowest);
      expect(answered.map(({ touches, position }) => written(touches, position)).sort()).toEqual(
        tried.map(({ touches, position }) => written(touches, position)).sort(),
      );
      found += answered.length;
      if (answered.length === 0) refused += 1;
    }),
    { numRuns: Math.max(100, shareOf(1000)), seed: 83 },
  );
  expect(found).toBeGreaterThan(100);
  expect(refused).toBeGreaterThan(5);
});

test('two notes of a chord have two strings', () => {
  // On a re-entrant ukulele C4 and D4 lie on the third string alone.
  const ukulele = findInstrument('ukulele');
  expect(() => arrange(bars('C4+D4'), ukulele, rulesFrom())).toThrow(/cannot be held|no shape/);
  expect(arrange(bars('C4+E4'), ukulele, rulesFrom()).arrangement.placements.size).toBe(2);
});
