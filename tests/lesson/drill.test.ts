/** Drills: every note in its place, the rules of melody, one assignment of places for all that a lesson hands out. */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { GRADES } from '../../src/lesson/drill/grades.ts';
import { drillTune, makeDrill } from '../../src/lesson/drill.ts';
import { scaleNotes } from '../../src/lesson/scale/notes.ts';
import { makeScale } from '../../src/lesson/scale.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { midi, staffStep } from '../../src/score/pitch.ts';
import { metreTicks } from '../../src/score/time.ts';
import { lessonBy, lessonFor, notesOf, struckHeads } from '../support/lesson.ts';
import { ask, LINEAR, time, WINDOW } from './drill/asked.ts';

const anyDrill = fc.record({
  scale: fc
    .constantFrom('C major', 'G major', 'A minor', 'D dorian', 'F major', 'E minor pentatonic')
    .map(scaleNotes),
  window: fc.constant(WINDOW),
  time: fc.constantFrom(
    time(4, 4),
    time(3, 4),
    time(2, 4),
    time(2, 2),
    time(6, 8),
    time(9, 8),
    time(12, 8),
    time(3, 8),
    time(5, 4),
  ),
  measures: fc.integer({ min: 2, max: 17 }),
  grade: fc.constantFrom(...GRADES),
  seed: fc.nat(999_999),
  focus: fc.constant([]),
});

describe('any drill', () => {
  test.each([['ukulele-low-g'], ['ukulele', 'ukulele-low-g'], ['guitar']])(
    '%s: every note lies inside the window',
    (...ids) => {
      const lesson = lessonFor(ids, [4, 8]);
      fc.assert(
        fc.property(anyDrill, asked => {
          const { tune, editions } = makeDrill(asked, lesson);
          for (const { arrangement } of editions) {
            expect(arrangement.misfits).toEqual([]);
            for (const head of struckHeads(tune)) {
              const { fret, fit } = arrangement.placements.get(head.id)!;
              expect(fit).toBe('inside');
              expect(fret).toBeGreaterThanOrEqual(4);
              expect(fret).toBeLessThanOrEqual(8);
            }
          }
        }),
        { numRuns: 25 },
      );
    },
  );

  test('fills its measures with notes that are written as long as they are', () => {
    fc.assert(
      fc.property(anyDrill, asked => {
        const { tune } = drillTune(asked, LINEAR);
        expect(tune.measures).toHaveLength(asked.measures);
        for (const { events, length } of tune.measures) {
          expect(length).toBe(metreTicks(asked.time, tune.division));
          expect(events.every(event => event.kind === 'note')).toBe(true);
          expect(events.reduce((sum, event) => sum + event.duration, 0)).toBe(length);
        }
        for (const { value, duration } of notesOf(tune)) {
          expect(((4 * tune.division) / value.base) * (2 - 0.5 ** value.dots)).toBe(duration);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('starts and ends on the tonic; every leap is resolved by a step the other way; no note comes three times in a row', () => {
    fc.assert(
      fc.property(anyDrill, asked => {
        const { tune } = drillTune(asked, LINEAR);
        const heads = struckHeads(tune);
        for (const head of [heads[0]!, heads.at(-1)!]) {
          expect([head.pitch.step, head.pitch.alter]).toEqual([
            asked.scale.tonic.step,
            asked.scale.tonic.alter,
          ]);
        }
        const steps = heads.map(head => staffStep(head.pitch));
        const moves = steps.slice(1).map((step, index) => step - steps[index]!);
        for (const [index, move] of moves.entries()) {
          if (Math.abs(move) >= 3) {
            // In a pentatonic scale a step may be a third.
            expect(Math.sign(moves[index + 1]!)).toBe(-Math.sign(move));
            expect(Math.abs(moves[index + 1]!)).toBeLessThanOrEqual(asked.scale.intervals.length < 7 ? 2 : 1);
          }
          if (move === 0 && moves[index + 1] === 0) expect.fail('three times the same note');
        }
      }),
      { numRuns: 60 },
    );
  });

  test('comes to rest on a long note every four measures', () => {
    fc.assert(
      fc.property(anyDrill, asked => {
        const { tune } = drillTune(asked, LINEAR);
        for (const [index, { events }] of tune.measures.entries()) {
          if ((index + 1) % 4 === 0) {
            const longest = Math.max(...events.slice(0, -1).map(event => event.duration), 0);
            expect(events.at(-1)!.duration).toBeGreaterThanOrEqual(Math.min(longest, tune.division));
          }
        }
      }),
      { numRuns: 40 },
    );
  });
});

test('too few notes, or none of them the tonic, are refused', () => {
  expect(() => makeDrill(ask({ window: { low: 4, high: 4 } }), lessonFor(['ukulele'], [4, 4]))).toThrow(
    /too few|tonic/,
  );
});

describe('one assignment of places', () => {
  const file = new URL('../../examples/tunes/amazing-grace.musicxml', import.meta.url);
  const { tune } = chooseMelody(readScore(readFileSync(file)).score, { chords: 'top' });
  const lesson = lessonBy(tune, ['ukulele', 'ukulele-low-g'], [4, 8]);

  test('tune, scale and drill play a pitch in the same place', () => {
    const scale = scaleNotes('G major');
    const warmUp = makeScale({ scale, octaves: undefined, direction: 'both', pattern: 'steps' }, lesson);
    for (const grade of GRADES) {
      const drill = makeDrill(ask({ scale, grade }), lesson);
      lesson.known.forEach((known, index) => {
        const places = new Map([...known].map(([sound, { string, fret }]) => [sound, `${string}/${fret}`]));
        for (const made of [warmUp, drill]) {
          for (const head of struckHeads(made.tune)) {
            const { string, fret } = made.editions[index]!.arrangement.placements.get(head.id)!;
            const sound = midi(head.pitch);
            expect(places.get(sound) ?? `${string}/${fret}`).toBe(`${string}/${fret}`);
            places.set(sound, `${string}/${fret}`);
          }
        }
      });
    }
  });
});
