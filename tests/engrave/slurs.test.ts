/** Slurs as drawn. */
import { expect, test } from 'vitest';
import { bounds } from '../../src/engrave/drawing/mark.ts';
import { systemsOf } from './rules.ts';
import { sheet, tuneOf } from './sheets.ts';

test('a slur from the system before begins beside its first note, and stays low', () => {
  const tune = tuneOf(
    [{ notes: 'A5h A5h' }, { notes: 'A5h A5h' }, { notes: 'A5h A5h' }, { notes: 'C5h A5h' }],
    { slurs: [{ from: 5, to: 13, placement: undefined }] },
  );
  const [, second] = systemsOf(sheet(tune, { measuresPerSystem: 2 }).pages);
  const [slur] = second!.marks.filter(({ role }) => role === 'slur').map(bounds);
  const heads = second!.marks.filter(({ role }) => role === 'head').map(bounds);
  const highest = Math.min(...heads.map(({ top }) => top));
  expect(slur!.top).toBeLessThan(highest);
  expect((highest - slur!.top) / second!.space).toBeLessThan(2);
});
