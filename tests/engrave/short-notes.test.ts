/** Notes with more flags than the music font has one sign for. */
import { expect, test } from 'vitest';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import type { Tune } from '../../src/score/tune.ts';
import { systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

/** A tune whose second event is a note of this value, and whose others are long. */
function withNote(base: number, pitch: string): Tune {
  const tune = tuneOf([{ notes: `C5h ${pitch}q C5q` }]);
  const events = tune.measures[0]!.events.map((event, i) =>
    i === 1 && event.kind === 'note' ? { ...event, value: { base, dots: 0, ratio: undefined } } : event,
  );
  return { ...tune, measures: [{ ...tune.measures[0]!, events }] };
}

test.each([
  ['E4', 128, 1],
  ['E4', 256, 2],
  ['E5', 256, 2],
  ['E4', 1024, 4],
  ['E5', 1024, 4],
])('%s as one of %i in a whole note has its flags on its stem, clear of its head', (pitch, base, signs) => {
  const [system] = systemsOf(sheet(withNote(base, pitch), { staffSize: 4 }).pages);
  const flags = system!.marks.filter(({ role }) => role === 'flag').map(bounds);
  const [, head] = system!.marks.filter(({ role }) => role === 'head').map(bounds);
  expect(flags).toHaveLength(signs);
  for (const { top, bottom } of flags)
    expect(pitch === 'E4' ? head!.bottom - top : bottom - head!.top).toBeGreaterThan(1);
  for (const [i, flag] of flags.slice(1).entries())
    expect(Math.abs(flag.top - flags[i]!.top) + Math.abs(flag.bottom - flags[i]!.bottom)).toBeGreaterThan(
      0.7,
    );
});

test('a beam of eight levels leaves room for its heads', () => {
  const tune = tuneOf([{ notes: 'E4e E4e C5q C5h' }]);
  const events = tune.measures[0]!.events.map((event, i) =>
    i < 2 && event.kind === 'note' ? { ...event, value: { base: 1024, dots: 0, ratio: undefined } } : event,
  );
  const [system] = systemsOf(
    sheet({ ...tune, measures: [{ ...tune.measures[0]!, events }] }, { staffSize: 4 }).pages,
  );
  const beams = system!.marks.filter(({ role }) => role === 'beam').map(bounds);
  const [head] = system!.marks.filter(({ role }) => role === 'head').map(bounds);
  expect(beams.length).toBeGreaterThanOrEqual(8);
  expect(head!.top - Math.max(...beams.map(({ bottom }) => bottom))).toBeGreaterThan(0.5);
});
