/** What a time signature says about grouping: the spans that one beam may cover. */

import type { TimeSignature } from '../../score/model/attributes.ts';
import type { Ticks } from '../../score/model/duration.ts';
import type { TuneMeasure } from '../../score/tune.ts';

export interface Grouping {
  /** Lengths of the beam groups, in order. */
  readonly beats: readonly Ticks[];
  /** Spans of several beats that notes no shorter than an eighth may join under one beam. */
  readonly spans: readonly Ticks[];
}

/** Groups of five, seven, … units without a compound reading: threes first, then twos. */
function irregular(units: number): number[] {
  const groups: number[] = [];
  for (let left = units; left > 0; left -= groups.at(-1)!) groups.push(left === 2 || left === 4 ? 2 : 3);
  return units === 7 ? [2, 2, 3] : groups;
}

function fractionBeats(beats: number, beatType: number, division: Ticks): Ticks[] {
  const unit = (division * 4) / beatType;
  if (beatType >= 8) {
    const groups = beats % 3 === 0 ? Array<number>(beats / 3).fill(3) : irregular(beats);
    return groups.map(count => count * unit);
  }
  return Array<Ticks>(beats).fill(unit);
}

const sum = (numbers: readonly number[]) => numbers.reduce((a, b) => a + b, 0);

export function grouping(time: TimeSignature | undefined, division: Ticks): Grouping {
  if (time?.kind !== 'metred') return { beats: [division], spans: [division] };
  const entries = time.fractions.flatMap(({ beats, beatType }) =>
    beats.map(count => ({ count, beatType, of: beats.length })),
  );
  const beats = entries.flatMap(({ count, beatType, of }) =>
    of > 1 && beatType >= 8 ? [(count * division * 4) / beatType] : fractionBeats(count, beatType, division),
  );
  const only = entries.length === 1 ? entries[0]! : undefined;
  // Eighths may join two beats (all three in 3/4), never over the middle of a 4/4 measure.
  if (only?.beatType === 4 && only.count % 2 === 0)
    return { beats, spans: Array<Ticks>(only.count / 2).fill(2 * division) };
  if (only?.beatType === 4 && only.count === 3) return { beats, spans: [3 * division] };
  return { beats, spans: beats };
}

/** What the measure would last by its time signature; its real length in free time. */
export function nominalLength({ time, length }: TuneMeasure, division: Ticks): Ticks {
  if (time?.kind !== 'metred') return length;
  return sum(time.fractions.map(({ beats, beatType }) => (sum(beats) * division * 4) / beatType));
}

/** Where the measure's first tick lies in its metre: later than 0 for a pickup. */
export function metreOffset(measure: TuneMeasure, division: Ticks): Ticks {
  const missing = nominalLength(measure, division) - measure.length;
  return missing > 0 && (measure.index === 0 || measure.implicit) ? missing : 0;
}
