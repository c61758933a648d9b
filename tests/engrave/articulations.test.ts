/** Signs that point: those above a note are those below it, upside down. */
import { expect, test } from 'vitest';
import { glyph } from '../../src/engrave/font/glyph.ts';
import type { Articulation } from '../../src/score/model/event.ts';
import { inked } from './layout.ts';
import { sheet, tuneOf } from './sheets.ts';

/** Whether the ink of a sign is narrowest at its top: ▲ and ∧, as against ▼ and ∨. */
function pointsUp(name: Parameters<typeof glyph>[0]): boolean {
  const { path, top, bottom, left, right } = glyph(name);
  const corners = [...path.matchAll(/(-?[\d.]+)[ ]?(-[\d.]+|(?<= )[\d.]+)/g)].map(each =>
    each.slice(1).map(Number),
  );
  const middle = (left + right) / 2;
  const tips = corners.filter(([x]) => Math.abs(x! - middle) < (right - left) / 10).map(([, y]) => y!);
  return Math.min(...tips) - top < bottom - Math.max(...tips);
}

test.each<[Articulation, string, boolean]>([
  // Drawn by every handbook of notation: ∧ above, whatever the stem does.
  ['marcato', 'C5w', true],
  ['marcato', 'E4q', true],
  // The thin end points to the head.
  ['staccatissimo', 'E4q', true],
  ['staccatissimo', 'E5q', false],
])('%s at %s points up: %s', (articulation, note, up) => {
  const tune = tuneOf([{ notes: note }]);
  const [measure] = tune.measures;
  const [event] = measure!.events;
  if (event?.kind !== 'note') throw new Error('no note');
  const events = [{ ...event, articulations: [articulation] }];
  const { pages } = sheet({ ...tune, measures: [{ ...measure!, events }] });
  const names = inked(pages).flatMap(({ mark }) =>
    mark.role === 'articulation' && mark.kind === 'glyph' ? [mark.name] : [],
  );
  expect(names.map(pointsUp)).toEqual([up]);
});
