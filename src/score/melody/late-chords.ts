/** Chord symbols that a file writes after the last note of a measure: they hold from the next measure on. */
import type { TuneMeasure } from '../tune.ts';

/** The same measures, such symbols at the start of the next one; at the end of the last one they stay. */
export const withoutLateChords = (measures: readonly TuneMeasure[]): readonly TuneMeasure[] => {
  const lateIn = (index: number) => {
    const measure = measures[index];
    const isLast = index === measures.length - 1;
    return measure && !isLast ? measure.chordSymbols.filter(({ at }) => at >= measure.length) : [];
  };
  return measures.map((measure, index) => {
    const [before, own] = [lateIn(index - 1), lateIn(index)];
    if (before.length === 0 && own.length === 0) return measure;
    const kept = measure.chordSymbols.filter(each => !own.includes(each));
    return { ...measure, chordSymbols: [...before.map(each => ({ ...each, at: 0 })), ...kept] };
  });
};
