/** How places in a tune are called, the same in messages, in tables and on sheets. */
import { beatText, counted } from './numbers.ts';

/** A beat of a measure. */
export interface Moment {
  /** As printed; 0 is a pickup. */
  readonly measure: string;
  /** Of the time signature's lower number, from 1; may be fractional. */
  readonly beat: number;
}

/** Whether a measure with that number is a pickup, which is not counted. */
export const isPickupNumber = (measure: string): boolean => measure === '0';

/** "3", "pickup": in a column of measures. */
export const measureLabel = (measure: string): string => (isPickupNumber(measure) ? 'pickup' : measure);

/** "measure 3", "pickup". */
export const measureName = (measure: string): string =>
  isPickupNumber(measure) ? 'pickup' : `measure ${measure}`;

/** "measures 1–8", "measure 8", "pickup to measure 3": what lies from one printed number to another. */
export const stretchName = (from: string, to: string, dash = '–'): string => {
  if (from === to) return measureName(from);
  return isPickupNumber(from) ? `pickup to measure ${to}` : `measures ${from}${dash}${to}`;
};

/** "measure 3 beat 2.5", "pickup beat 4". */
export const momentName = ({ measure, beat }: Moment): string =>
  `${measureName(measure)} beat ${beatText(beat)}`;

/** "measure 4 beats 1 and 3; measure 12 beat 1": every moment, in the order given. */
export const momentNames = (moments: readonly Moment[]): string =>
  [...byMeasure(moments)].map(([measure, beats]) => `${measureName(measure)} ${beatNames(beats)}`).join('; ');

/** Columns: where moments take more, only their measures are told. A line of a terminal, our judgement. */
const LONGEST = 80;

/** The same for a message: "20 notes in pickup, measures 1-5, 8, 10-12" where there are many. */
export const momentsInShort = (moments: readonly Moment[]): string => {
  const names = momentNames(moments);
  if (names.length <= LONGEST) return names;
  return `${counted(moments.length, 'note')} in ${measureRanges([...byMeasure(moments).keys()])}`;
};

/** More ranges than this are counted. */
const MOST_RANGES = 8;

/** "pickup, measures 1-5, 8, 10-12": printed numbers in the order given; the rest of a long list is counted. */
export const measureRanges = (measures: readonly string[]): string => {
  const counting = measures.filter(measure => !isPickupNumber(measure));
  const ranges = rangesOf(counting);
  const shown = ranges.slice(0, MOST_RANGES);
  const left = counting.length - shown.reduce((sum, range) => sum + range.length, 0);
  const names = shown.map(range => (range.length > 1 ? `${range[0]}-${range.at(-1)}` : range[0]));
  const numbers = `measure${counting.length === 1 ? '' : 's'} ${names.join(', ')}`;
  return [
    ...(counting.length < measures.length ? ['pickup'] : []),
    ...(counting.length > 0 ? [left > 0 ? `${numbers} and ${left} more` : numbers] : []),
  ].join(', ');
};

/** Numbers that follow each other, together; two of them are no range. */
const rangesOf = (measures: readonly string[]): readonly (readonly string[])[] => {
  const runs: string[][] = [];
  for (const measure of measures) {
    const last = runs.at(-1)?.at(-1);
    if (last !== undefined && /^\d+$/.test(measure) && Number(measure) === Number(last) + 1)
      runs.at(-1)!.push(measure);
    else runs.push([measure]);
  }
  return runs.flatMap(run => (run.length === 2 ? run.map(each => [each]) : [run]));
};

const beatNames = (beats: readonly number[]): string => {
  const names = beats.map(beatText);
  if (names.length === 1) return `beat ${names[0]}`;
  return `beats ${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
};

const byMeasure = (moments: readonly Moment[]): ReadonlyMap<string, readonly number[]> => {
  const measures = new Map<string, number[]>();
  for (const { measure, beat } of moments) {
    const beats = measures.get(measure);
    if (beats) beats.push(beat);
    else measures.set(measure, [beat]);
  }
  return measures;
};
