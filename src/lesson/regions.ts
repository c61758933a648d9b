/**
 * The parts of a tune that are played in different windows. A pitch may lie elsewhere in each, so that a
 * scale for the tune goes through all of them, one after the other.
 */
import type { Arrangement, FretWindow } from '../fingering/arrangement.ts';
import { type Rules, wholeTune, windowsIn } from '../fingering/rules.ts';
import { groupBy } from '../score/groups.ts';
import type { Tune } from '../score/tune.ts';
import { type KnownPlaces, knownPlaces, type LessonAsked, type Region, wholeWindow } from './places.ts';

/** What a lesson knows of its tune: where each pitch lies, in all and in each window. */
export const placesOfTune = (
  tune: Tune,
  arrangements: readonly Arrangement[],
  rules: Rules,
): { readonly known: readonly KnownPlaces[]; readonly regions: readonly Region[] } => {
  const placesIn = (part: Tune) => arrangements.map(arrangement => knownPlaces(part, arrangement));
  const windows = windowsIn(
    rules,
    tune.measures.map(({ number }) => number),
  );
  const windowOf = (index: number): FretWindow | undefined => windows[index];
  const parts = groupBy(tune.measures, ({ index }) => JSON.stringify(windowOf(index)));
  const regions = parts.map(
    (measures): Region => ({ window: windowOf(measures[0].index), known: placesIn({ ...tune, measures }) }),
  );
  return {
    known: placesIn(tune),
    regions: regions.filter(({ known }) => known.some(places => places.size > 0)),
  };
};

/** The regions of a lesson: one, where there is no tune or it has one window. */
export const regionsOf = ({ rules, known = [], regions = [] }: LessonAsked): readonly Region[] =>
  regions.length > 1 ? regions : [{ window: wholeWindow(rules), known }];

/** The lesson as if there were nothing but one of its regions. */
export const lessonIn = (lesson: LessonAsked, { window, known }: Region): LessonAsked => ({
  ...lesson,
  rules: { ...lesson.rules, windows: window ? wholeTune(window.low, window.high) : [] },
  known,
  regions: [],
});
