/** The warm-up for a tune that is played in two windows, one after the other. */
import { describe, expect, test } from 'vitest';
import { arrangeEditions } from '../../src/fingering/editions.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { placesOfTune } from '../../src/lesson/regions.ts';
import { scaleNotes } from '../../src/lesson/scale/notes.ts';
import { makeScale, type ScaleWanted } from '../../src/lesson/scale.ts';
import { midi } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';
import { lessonFor, placementsOf } from '../support/lesson.ts';
import { exampleTune } from '../support/pack.ts';

describe('the warm-up for a tune in two windows', () => {
  const tune = exampleTune('amazing-grace');
  const windows = [
    { measures: undefined, window: { low: 2, high: 6 } },
    { measures: { from: 9, to: 16 }, window: { low: 5, high: 9 } },
  ];
  const asked = { ...lessonFor(['ukulele-low-g', 'ukulele'], undefined), rules: rulesFrom({ windows }) };
  const { editions } = arrangeEditions(tune, { ...asked, transpose: 0 });
  const arrangements = editions.map(({ arrangement }) => arrangement);
  const { known, regions } = placesOfTune(tune, arrangements, asked.rules);
  const lesson = { ...asked, known, regions };
  const made = (more: Partial<ScaleWanted> = {}) =>
    makeScale({ scale: scaleNotes('G major'), octaves: undefined, ...more }, lesson);
  /** Index of the measure in which the second window begins. */
  const middle = ({ measures }: Tune) => measures.findIndex(({ right }) => right.style === 'double') + 1;

  test('goes through one window, then through the other', () => {
    const { tune: scale, editions: fingered } = made();
    expect(middle(scale)).toBe(4);
    expect(fingered[0]!.arrangement.windows).toEqual([
      { measures: { from: 1, to: 4 }, window: { low: 2, high: 6 } },
      { measures: { from: 5, to: 9 }, window: { low: 5, high: 9 } },
    ]);
    expect(scale.measures.map(({ right }) => right.style)).toEqual([
      ...['regular', 'regular', 'regular', 'double', 'regular', 'regular', 'regular', 'regular', 'final'],
    ]);
  });

  // Check values: position II and position V on the linear ukulele, common practice.
  test('on the linear ukulele each lies in its position', () => {
    const { tune: scale, editions: fingered } = made({ direction: 'up' });
    const places = placementsOf(scale, fingered[0]!.arrangement).map(
      ({ string, fret }) => `${string}/${fret}`,
    );
    expect(places.join(' ')).toBe('3/2 3/4 2/2 2/3 2/5 1/2 1/3 1/5 4/7 4/9 3/6 3/7 2/5 2/7 2/8 1/5 1/7 1/9');
  });

  test.each(['steps', 'thirds', 'fours'] as const)(
    'in %s each pitch lies where the tune has it there',
    pattern => {
      const { tune: scale, editions: fingered } = made({ pattern });
      fingered.forEach(({ arrangement }, edition) => {
        let shared = 0;
        for (const { index, events } of scale.measures) {
          const region = regions[index < middle(scale) ? 0 : 1]!;
          for (const event of events) {
            if (event.kind === 'rest') continue;
            const there = region.known[edition]!.get(midi(event.heads[0]!.pitch));
            if (!there) continue;
            shared += 1;
            const { string, fret, fit } = arrangement.placements.get(event.heads[0]!.id)!;
            expect({ string, fret, fit }).toEqual({ string: there.string, fret: there.fret, fit: there.fit });
          }
        }
        expect(shared).toBeGreaterThan(15);
      });
    },
  );
});
