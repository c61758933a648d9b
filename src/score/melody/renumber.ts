/** Gives events and heads of a tune ids of its own, in order, and drops what lost one of its ends. */
import type { Head, MusicEvent } from '../model/event.ts';
import type { Tune } from '../tune.ts';

/** Numbers events and heads from 1, in order. */
export const renumber = (tune: Tune): Tune => {
  const ids = numbersFor(tune);
  const linked = (id: number | undefined): number | undefined => (id === undefined ? undefined : ids.get(id));
  const spans = <T extends { readonly from: number; readonly to: number }>(
    list: readonly T[],
  ): readonly T[] =>
    list.flatMap(span => {
      const from = linked(span.from);
      const to = linked(span.to);
      return from === undefined || to === undefined || from >= to ? [] : [{ ...span, from, to }];
    });
  let last = 0;
  const next = (): number => {
    last += 1;
    return last;
  };
  const head = (each: Head): Head => ({
    ...each,
    id: next(),
    tieTo: linked(each.tieTo),
    tieFrom: linked(each.tieFrom),
  });
  const event = (each: MusicEvent): MusicEvent => {
    const id = next();
    return each.kind === 'rest' ? { ...each, id } : { ...each, id, heads: each.heads.map(head) };
  };
  return {
    ...tune,
    measures: tune.measures.map(measure => ({ ...measure, events: measure.events.map(event) })),
    slurs: spans(tune.slurs),
    tuplets: spans(tune.tuplets),
  };
};

/** Old ids → new ones: counted in the same order as they are given out. */
const numbersFor = (tune: Tune): ReadonlyMap<number, number> => {
  const ids = new Map<number, number>();
  let last = 0;
  const count = (id: number): void => {
    last += 1;
    ids.set(id, last);
  };
  for (const { events } of tune.measures) {
    for (const event of events) {
      count(event.id);
      if (event.kind === 'note') for (const head of event.heads) count(head.id);
    }
  }
  return ids;
};
