/** What drills are asked for in tests. */
import type { DrillAsked } from '../../../src/lesson/drill.ts';
import { scaleNotes } from '../../../src/lesson/scale/notes.ts';
import type { TimeSignature } from '../../../src/score/model/attributes.ts';
import { lessonFor } from '../../support/lesson.ts';

export const time = (beats: number, beatType: number): TimeSignature => ({
  kind: 'metred',
  fractions: [{ beats: [beats], beatType }],
  symbol: 'fraction',
});

export const WINDOW = { low: 4, high: 8 };

export const ask = (more: Partial<DrillAsked> = {}): DrillAsked => ({
  scale: scaleNotes('C major'),
  window: WINDOW,
  time: time(4, 4),
  measures: 8,
  grade: 1,
  seed: 1,
  focus: [],
  ...more,
});

export const LINEAR = lessonFor(['ukulele-low-g'], [4, 8]);
