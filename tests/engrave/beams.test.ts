/** Beams follow the metre (common practice, as in the published handbooks of engraving). */
import { describe, expect, test } from 'vitest';
import { beamGroups } from '../../src/engrave/content/beams.ts';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import type { TimeSignature } from '../../src/score/model/attributes.ts';
import type { BeamMark } from '../../src/score/model/event.ts';
import type { Tune } from '../../src/score/tune.ts';
import { systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

const metre = (beats: number, beatType: number, ...more: readonly number[]): TimeSignature => ({
  kind: 'metred',
  fractions: [{ beats: [beats, ...more], beatType }],
  symbol: 'fraction',
});

const measure = (notes: string, time: TimeSignature) => tuneOf([{ notes, time }]);

/** Sizes of the beam groups. */
const sizes = (tune: Tune) => beamGroups(tune).map(({ events }) => events.length);

const eighths = (count: number) => Array(count).fill('A4e').join(' ');

describe('beams by the metre', () => {
  test.each([
    ['2/4', metre(2, 4), 4, [4]],
    ['3/4', metre(3, 4), 6, [6]],
    ['4/4, never over its middle', metre(4, 4), 8, [4, 4]],
    ['2/2', metre(2, 2), 8, [4, 4]],
    ['3/8', metre(3, 8), 3, [3]],
    ['6/8', metre(6, 8), 6, [3, 3]],
    ['9/8', metre(9, 8), 9, [3, 3, 3]],
    ['12/8', metre(12, 8), 12, [3, 3, 3, 3]],
    ['5/8', metre(5, 8), 5, [3, 2]],
    ['7/8', metre(7, 8), 7, [2, 2, 3]],
    ['3+2 over 8', metre(3, 8, 2), 5, [3, 2]],
    ['2+3 over 8', metre(2, 8, 3), 5, [2, 3]],
  ])('%s', (_, time, count, groups) => {
    expect(sizes(measure(eighths(count), time))).toEqual(groups);
  });

  test('by beat where sixteenths are among them', () =>
    expect(sizes(measure('A4s A4s A4e A4e A4e A4h', metre(4, 4)))).toEqual([3, 2]));
  test('triplets by beat', () =>
    expect(sizes(measure('A4e3 A4e3 A4e3 A4e3 A4e3 A4e3 A4h', metre(4, 4)))).toEqual([3, 3]));
  test('end at rests and longer notes', () =>
    expect(sizes(measure('A4e A4e re A4e A4q A4e A4e', metre(4, 4)))).toEqual([2, 2]));
  test('of a pickup count from the bar line', () => {
    const tune = tuneOf([{ notes: 'A4e A4e A4e', time: metre(4, 4), implicit: true }]);
    expect(sizes(tune)).toEqual([2].map(() => 3));
  });
});

describe('partial beams', () => {
  const hooks = (notes: string) =>
    beamGroups(measure(notes, metre(4, 4))).flatMap(({ segments }) =>
      segments.flatMap(each => each.hook ?? []),
    );
  test('point back after a dotted note', () => expect(hooks('A4e. A4s A4h.')).toEqual(['left']));
  test('point forward before one', () => expect(hooks('A4s A4e. A4h.')).toEqual(['right']));
});

describe('beams that the file gives', () => {
  const given = (marks: readonly (BeamMark | undefined)[]): Tune => {
    const tune = measure(eighths(8), metre(4, 4));
    const [first] = tune.measures;
    const events = first!.events.map((event, i) =>
      event.kind === 'note' && marks[i] ? { ...event, beams: [marks[i]!] } : event,
    );
    return { ...tune, measures: [{ ...first!, events }] };
  };
  test('win over the metre', () =>
    expect(
      sizes(given(['begin', 'continue', 'end', undefined, undefined, undefined, 'begin', 'end'])),
    ).toEqual([3, 2]));
  test('are put aside where they do not end', () =>
    expect(sizes(given(['begin', 'continue', 'begin']))).toEqual([4, 4]));
});

test.each([
  ['slashed', 1],
  ['plain', 0],
] as const)('%s grace notes under a beam have %i strokes through it', (grace, count) => {
  const plain = tuneOf([{ notes: 'A4s B4s C5h C5q C5e' }]);
  const events = plain.measures[0]!.events.map((event, i) =>
    i < 2 && event.kind === 'note' ? { ...event, at: 24, duration: 0, grace } : event,
  );
  const tune = { ...plain, measures: [{ ...plain.measures[0]!, events }] };
  const [system] = systemsOf(sheet(tune, { sheet: 'quiz' }).pages);
  const strokes = system!.marks.filter(({ role, kind }) => role === 'grace' && kind === 'line').map(bounds);
  const beams = system!.marks.filter(({ role }) => role === 'beam').map(bounds);
  expect(strokes).toHaveLength(count);
  expect(beams).toHaveLength(2);
  for (const stroke of strokes)
    for (const beam of beams) {
      expect(stroke.top).toBeLessThan(beam.top);
      expect(stroke.bottom).toBeGreaterThan(beam.bottom);
      expect(stroke.right).toBeGreaterThan(beam.left);
    }
});
