/**
 * Measures that do nothing but rest, one after another, are set as one with a number. Everything that
 * happens at their edges (a repeat, a change, a word) keeps them apart.
 */
import type { Tune, TuneMeasure } from '../../score/tune.ts';

export interface Condensed {
  readonly tune: Tune;
  /** Lengths of multi-measure rests, by the index of the measure that stands for them. */
  readonly rests: ReadonlyMap<number, number>;
  /** The index each measure had in the tune as it came. */
  readonly origins: readonly number[];
}

const onlyRests = ({ events, chordSymbols, directions }: TuneMeasure): boolean =>
  chordSymbols.length === 0 &&
  directions.length === 0 &&
  events.length > 0 &&
  events.every(event => event.kind === 'rest' && !event.fermata);

/** Nothing happens on the bar line between two measures, or within the first. */
function plainBetween(left: TuneMeasure, right: TuneMeasure): boolean {
  const plain = (barline: TuneMeasure['left']) =>
    barline.style === 'regular' && !barline.repeat && barline.ending === undefined;
  return (
    plain(left.right) &&
    plain(right.left) &&
    left.changes.every(({ at }) => at === 0) &&
    right.changes.length === 0 &&
    right.breakBefore === undefined
  );
}

export function condense(tune: Tune): Condensed {
  const runs: TuneMeasure[][] = [];
  for (const measure of tune.measures) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    const joins = last && onlyRests(last) && onlyRests(measure) && plainBetween(last, measure);
    if (run && joins && !last.implicit && !measure.implicit) run.push(measure);
    else runs.push([measure]);
  }
  const rests = new Map<number, number>();
  const measures = runs.map((run, index): TuneMeasure => {
    const first = run[0]!;
    if (run.length === 1) return { ...first, index };
    rests.set(index, run.length);
    const rest = first.events[0]!;
    const event = { ...rest, duration: first.length, value: undefined, wholeMeasure: true } as typeof rest;
    return { ...first, index, events: [event], right: run.at(-1)!.right };
  });
  return { tune: { ...tune, measures }, rests, origins: runs.map(run => run[0]!.index) };
}
