/** Grades of drills: each is harder to read than the one before. */
import { describe, expect, test } from 'vitest';
import { GRADES, type Grade } from '../../../src/lesson/drill/grades.ts';
import { readingLoad } from '../../../src/lesson/drill/load.ts';
import { usualDrill } from '../../../src/lesson/drill/usual.ts';
import { type DrillAsked, drillTune } from '../../../src/lesson/drill.ts';
import { staffStep } from '../../../src/score/pitch.ts';
import { valueTicks } from '../../../src/score/time.ts';
import { notesOf, struckHeads } from '../../support/lesson.ts';
import { attributes, note, tuneFrom } from '../../support/musicxml.ts';
import { ask, LINEAR, time } from './asked.ts';

describe('grades', () => {
  const SEEDS = Array.from({ length: 40 }, (_, seed) => seed);
  const drills = (grade: Grade, more: Partial<DrillAsked> = {}) =>
    SEEDS.map(seed => drillTune(ask({ grade, seed, ...more }), LINEAR).tune);
  const mean = (values: readonly number[]) => values.reduce((sum, each) => sum + each, 0) / values.length;

  test.each([
    ['4/4', time(4, 4)],
    ['3/4', time(3, 4)],
    ['6/8', time(6, 8)],
  ])('in %s the mean reading load grows with the grade', (_, metre) => {
    const loads = GRADES.map(grade => mean(drills(grade, { time: metre }).map(readingLoad)));
    for (const [index, load] of loads.slice(1).entries()) expect(load).toBeGreaterThan(loads[index]!);
  });

  const widest = (grade: Grade) =>
    Math.max(
      ...drills(grade).flatMap(tune => {
        const steps = struckHeads(tune).map(head => staffStep(head.pitch));
        return steps.slice(1).map((step, index) => Math.abs(step - steps[index]!));
      }),
    );
  test('steps, thirds, thirds, fifths, octaves at most', () => {
    expect(GRADES.map(widest)).toEqual([1, 2, 2, 4, 7]);
  });

  test('accidentals come in grade 5 alone, and there in all but few drills', () => {
    const altered = (grade: Grade) =>
      drills(grade).filter(tune => struckHeads(tune).some(head => head.pitch.alter !== 0)).length;
    expect([1, 2, 3, 4].map(grade => altered(grade as Grade))).toEqual([0, 0, 0, 0]);
    expect(altered(5)).toBeGreaterThanOrEqual(38);
  });

  test('eighth notes come from grade 3 on', () => {
    const shortest = (grade: Grade) =>
      Math.max(...drills(grade).flatMap(tune => notesOf(tune).map(note => note.value.base)));
    expect([1, 2, 3].map(grade => shortest(grade as Grade))).toEqual([4, 4, 8]);
  });

  test.each([1, 2, 4, 8, 16, 32])(
    'in metres over %i all notes are written in values that exist',
    beatType => {
      for (const beats of [1, 2, 3, 4, 5, 6, 9, 12]) {
        for (const seed of SEEDS.slice(0, 8)) {
          const metre = time(beats, beatType);
          const { tune } = drillTune(ask({ grade: 5, seed, time: metre }), LINEAR);
          for (const { duration, value } of notesOf(tune)) {
            expect(duration).toSatisfy(Number.isInteger);
            expect(valueTicks(value, tune.division)).toBe(duration);
            expect(value.ratio).toBeUndefined();
          }
        }
      }
    },
  );

  test('a tune in beats too short to be read has its drill in 4/4', () => {
    const timed = (beatType: number) =>
      tuneFrom(
        `${attributes(`<time><beats>4</beats><beat-type>${beatType}</beat-type></time>`)}${note('C4', 192 / beatType)}`,
      );
    expect(usualDrill({}, timed(16)).time).toEqual(time(4, 16));
    expect(usualDrill({}, timed(64)).time).toEqual(time(4, 4));
  });
});
