/** Signatures that change within a measure, and what stands over a whole-measure rest. */
import { expect, test } from 'vitest';
import { bounds, type Mark } from '../../src/engrave/drawing/mark.ts';
import type { Page } from '../../src/engrave/engrave.ts';
import type { Tune } from '../../src/score/tune.ts';
import { inked } from './layout.ts';
import { sheet, tuneOf } from './sheets.ts';

const boxes = (pages: readonly Page[], role: Mark['role']) =>
  inked(pages)
    .filter(({ mark }) => mark.role === role)
    .map(({ mark }) => bounds(mark))
    .sort((a, b) => a.left - b.left);

test('a key that changes under a held note stands after its head', () => {
  const changes = [{ at: 96, key: { fifths: 2, mode: undefined } }];
  const { pages } = sheet(tuneOf([{ notes: 'C5w', changes }, { notes: 'F#5w' }]));
  const [held, next] = boxes(pages, 'head');
  const signs = boxes(pages, 'key');
  expect(signs).toHaveLength(2);
  for (const { left, right } of signs) {
    expect(left).toBeGreaterThan(held!.right);
    expect(right).toBeLessThan(next!.left);
  }
});

/** The tune with rests that fill their measures. */
const resting = (tune: Tune): Tune => ({
  ...tune,
  measures: tune.measures.map(measure => ({
    ...measure,
    events: measure.events.map(event => (event.kind === 'rest' ? { ...event, wholeMeasure: true } : event)),
  })),
});

test('a chord symbol of the first beat stands before a rest that fills the measure', () => {
  const { pages } = sheet(resting(tuneOf([{ notes: 'C5w' }, { notes: 'rw', chords: { 0: 'F' } }])));
  const [rest] = boxes(pages, 'rest');
  const [chord] = boxes(pages, 'chord');
  expect(chord!.right).toBeLessThan(rest!.left);
});

test('a rest that fills its measure keeps clear of a key that changes there', () => {
  const changes = [{ at: 96, key: { fifths: 2, mode: undefined } }];
  const { pages } = sheet(resting(tuneOf([{ notes: 'C5w' }, { notes: 'rw', changes }, { notes: 'C5w' }])));
  const [rest] = boxes(pages, 'rest');
  for (const { left } of boxes(pages, 'key')) expect(left).toBeGreaterThan(rest!.right);
});
