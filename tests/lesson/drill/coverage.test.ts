/** Drills play every place about as often, and what is in focus oftener. */
import { describe, expect, test } from 'vitest';
import { GRADES } from '../../../src/lesson/drill/grades.ts';
import { type DrillAsked, drillTune, makeDrill } from '../../../src/lesson/drill.ts';
import { scaleNotes } from '../../../src/lesson/scale/notes.ts';
import { midi } from '../../../src/score/pitch.ts';
import { struckHeads } from '../../support/lesson.ts';
import { ask, LINEAR } from './asked.ts';

describe('coverage', () => {
  const counts = (asked: DrillAsked) => {
    const { tune, degrees } = drillTune(asked, LINEAR);
    const played = struckHeads(tune).map(head => midi(head.pitch));
    return new Map(degrees.map(({ sound }) => [sound, played.filter(each => each === sound).length]));
  };

  test('of sixteen measures every place is played, none much oftener than the others', () => {
    for (const grade of GRADES) {
      for (let seed = 0; seed < 20; seed++) {
        const all = [...counts(ask({ grade, seed, measures: 16 })).values()];
        const mean = all.reduce((sum, each) => sum + each, 0) / all.length;
        expect(Math.min(...all)).toBeGreaterThanOrEqual(1);
        expect(Math.max(...all)).toBeLessThanOrEqual(2.5 * mean);
      }
    }
  });

  test('what is in focus comes oftener than it would, by place or by name', () => {
    const focus = [
      { string: 1, fret: 8 },
      { sound: 64, name: 'E4' },
    ];
    for (const grade of GRADES) {
      const total = (more: Partial<DrillAsked>, sound: number): number =>
        Array.from({ length: 20 }, (_, seed) => counts(ask({ grade, seed, ...more })).get(sound)!).reduce(
          (sum, each) => sum + each,
        );
      for (const sound of [77, 64]) expect(total({ focus }, sound)).toBeGreaterThan(1.25 * total({}, sound));
    }
  });

  test('a focus outside the drill is refused', () => {
    expect(() => makeDrill(ask({ focus: [{ string: 1, fret: 2 }] }), LINEAR)).toThrow(/string 1 fret 2/);
    expect(() => makeDrill(ask({ focus: [{ string: 9, fret: 2 }] }), LINEAR)).toThrow(/string 9/);
  });

  test('a place in focus is the one that is played, where a pitch has two', () => {
    const scale = scaleNotes('E major');
    for (const place of [
      { string: 2, fret: 4 },
      { string: 3, fret: 8 },
    ]) {
      const { tune, editions } = makeDrill(ask({ scale, focus: [place] }), LINEAR);
      const there = struckHeads(tune).filter(head => midi(head.pitch) === 68);
      expect(there.length).toBeGreaterThan(0);
      for (const head of there) expect(editions[0]!.arrangement.placements.get(head.id)).toMatchObject(place);
    }
  });
});
