/**
 * Where a tune breathes. Signs that say so cut always: repeats, endings, double bars, rehearsal marks,
 * breaths, fermatas. In between, the cuts are found that fall on rests, long notes and ends of slurs and
 * leave phrases of about four measures: the cheapest way through all notes at once. Slurs and ties are
 * never cut. The weights are our judgement.
 */

import type { Ticks } from '../../score/model/duration.ts';
import type { NoteEvent } from '../../score/model/event.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';

/** A note and where it stands. */
export interface Sung {
  readonly event: NoteEvent;
  readonly measure: TuneMeasure;
  /** Ticks from the start of the tune. */
  readonly at: Ticks;
}

const sungNotes = (tune: Tune): readonly Sung[] =>
  tune.measures.flatMap(measure =>
    measure.events.flatMap(event =>
      event.kind === 'note' ? [{ event, measure, at: measure.at + event.at }] : [],
    ),
  );

/** The notes of each phrase; with `every`, so many measures each, a pickup with the first. */
export const phrasesOf = (tune: Tune, every?: number): readonly (readonly Sung[])[] => {
  const notes = sungNotes(tune);
  const cuts = every === undefined ? breathingCuts(tune, notes) : regularCuts(tune, notes, every);
  return [...cuts, notes.length].flatMap((to, index) => {
    const from = index === 0 ? 0 : cuts[index - 1]!;
    return to > from ? [notes.slice(from, to)] : [];
  });
};

/** Indices of the notes that begin a phrase, but for the first. */
const regularCuts = (tune: Tune, notes: readonly Sung[], every: number): readonly number[] => {
  const pickup = tune.measures[0] && isPickup(tune.measures) ? 1 : 0;
  const group = ({ measure }: Sung): number => Math.max(0, Math.floor((measure.index - pickup) / every));
  return notes.flatMap((note, index) =>
    index > 0 && group(note) !== group(notes[index - 1]!) ? [index] : [],
  );
};

const isPickup = ([first, second]: readonly TuneMeasure[]): boolean =>
  first !== undefined && second !== undefined && first.length < second.length;

/** Measures of a phrase that is neither short nor long, and the longest that may be. */
const USUAL = 4;
const LONGEST = 9;

/** What a phrase costs by its length in measures; an odd number of them is rare. */
const lengthCost = (measures: number): number =>
  0.3 * ((measures - USUAL) / 2) ** 2 + (Math.round(measures) % 2 === 1 ? 0.4 : 0);

/** What every cut costs, so that there are not more than need be. */
const CUT = 1;

const breathingCuts = (tune: Tune, notes: readonly Sung[]): readonly number[] => {
  const scores = notes.map((_, index) => (index === 0 ? 0 : cutScore(tune, notes, index)));
  const last = tune.measures.at(-1);
  const measure = Math.max(1, ...tune.measures.map(each => each.length));
  const end = last ? last.at + last.length : 0;
  // cheapest[i]: the cost of all phrases before note i, and where the last of them begins.
  const cheapest: { cost: number; from: number }[] = [{ cost: 0, from: 0 }];
  for (let to = 1; to <= notes.length; to++) {
    let best = { cost: Infinity, from: to - 1 };
    for (let from = to - 1; from >= 0; from--) {
      const length = ((notes[to]?.at ?? end) - notes[from]!.at) / measure;
      if (length > LONGEST && best.cost < Infinity) break;
      const gain = to === notes.length ? 0 : scores[to]!;
      const cost = cheapest[from]!.cost + lengthCost(length) - (gain === Infinity ? 0 : gain);
      if (cost < best.cost) best = { cost, from };
      // A phrase does not reach over a cut that must be.
      if (scores[from] === Infinity) break;
    }
    cheapest.push(best);
  }
  const cuts: number[] = [];
  for (let to = cheapest[notes.length]?.from ?? 0; to > 0; to = cheapest[to]!.from) cuts.unshift(to);
  return cuts;
};

/** How good a cut before a note is: Infinity where it must be, −Infinity where it may not be. */
const cutScore = (tune: Tune, notes: readonly Sung[], index: number): number => {
  const before = notes[index - 1]!;
  const here = notes[index]!;
  const { slurs } = tune;
  if (here.event.heads.some(head => head.tieFrom !== undefined)) return -Infinity;
  if (here.event.grace === undefined && before.event.grace !== undefined) return -Infinity;
  if (slurs.some(({ from, to }) => from <= before.event.id && to >= here.event.id)) return -Infinity;
  if (isSignedCut(tune, before, here)) return Infinity;
  const silence = (here.at - before.at - before.event.duration) / tune.division;
  const long = Math.min(1, before.event.duration / Math.max(1, before.measure.length));
  const slurEnds = slurs.some(({ from, to }) => to === before.event.id && to - from > 4);
  const pickup = isPickup(tune.measures) ? tune.measures[0]!.length : 0;
  const inPlace = here.event.at === (pickup > 0 ? here.measure.length - pickup : 0);
  return (
    0.6 * Math.min(2, Math.max(0, silence)) +
    long +
    (slurEnds ? 0.5 : 0) +
    (inPlace ? 0.35 : 0) +
    (here.event.at === 0 ? 0.15 : 0) -
    CUT
  );
};

/** Whether a sign between two notes ends a phrase. */
const isSignedCut = ({ measures }: Tune, before: Sung, here: Sung): boolean => {
  const { articulations, fermata } = before.event;
  if (fermata || articulations.includes('breath') || articulations.includes('caesura')) return true;
  // A repeat after the pickup does not part it from its phrase.
  if (before.measure.index === 0 && here.measure.index === 1 && isPickup(measures)) return false;
  return measures
    .slice(before.measure.index + 1, here.measure.index + 1)
    .some(({ left, directions, index }) => {
      const { right } = measures[index - 1]!;
      return (
        left.repeat ||
        left.ending !== undefined ||
        right.repeat ||
        right.style === 'double' ||
        directions.some(each => each.kind === 'rehearsal' && each.at === 0)
      );
    });
};
