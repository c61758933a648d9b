/** Changes of key, time and clef that a file writes after the last note of a measure: they belong to the next one. */
import type { AttributeChange } from '../model/attributes.ts';
import type { TuneMeasure } from '../tune.ts';

/** The same measures, such changes at the start of the next one, before its own; after the last one they change nothing. */
export const withoutLateChanges = (measures: readonly TuneMeasure[]): readonly TuneMeasure[] => {
  const isLate = (measure: TuneMeasure) => (change: AttributeChange) =>
    measure.length > 0 && change.at >= measure.length;
  return measures.map((measure, index) => {
    const before = measures[index - 1];
    const late = before?.changes.filter(isLate(before)) ?? [];
    const own = measure.changes.filter(change => !isLate(measure)(change));
    if (late.length === 0 && own.length === measure.changes.length) return measure;
    return { ...measure, changes: [...late.map(change => ({ ...change, at: 0 })), ...own] };
  });
};
