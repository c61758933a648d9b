/** How a note is written: its type, dots and tuplet ratio; derived from its duration where the file is silent. */
import { Count, type Note } from 'musicxml-interfaces';
import type { NoteValue, Ticks } from '../../score/model/duration.ts';
import { exactValue, nearestValue } from '../../score/time.ts';
import { sourceOf, type Walk } from '../draft.ts';
import type { XmlElement } from '../xml/element.ts';

/** The library's numbers for what is longer than a whole note. Nothing is printed longer than a long. */
const LONG: Partial<Record<Count, number>> = {
  [Count.Breve]: 0.5,
  [Count.Long]: 0.25,
  [Count.Maxima]: 0.25,
};

/** The written value of a note that lasts so many ticks (0 for a grace note). */
export const readValue = (walk: Walk, node: XmlElement, data: Note, ticks: Ticks): NoteValue => {
  const ratio = ratioOf(data);
  const count = data.noteType?.duration;
  if (count !== undefined && count !== null) {
    return { base: LONG[count] ?? count, dots: data.dots?.length ?? 0, ratio };
  }
  if (ticks === 0) return GRACE;
  const value = exactValue(ticks, walk.division, ratio) ?? exactValue(ticks, walk.division);
  if (value !== undefined) return value;
  walk.omissions.add('durations that no single note value shows', sourceOf(walk, node));
  return nearestValue(ticks, walk.division);
};

/** A grace note without a type is written as an eighth (common practice). */
const GRACE: NoteValue = { base: 8, dots: 0, ratio: undefined };

/** The ratio of `<time-modification>`: for nested tuplets the file gives the product. */
const ratioOf = (data: Note): NoteValue['ratio'] => {
  const modification = data.timeModification;
  if (modification === undefined) return undefined;
  const { actualNotes: actual, normalNotes: normal } = modification;
  const sound = Number.isInteger(actual) && Number.isInteger(normal) && actual > 0 && normal > 0;
  return sound && actual !== normal ? { actual, normal } : undefined;
};
