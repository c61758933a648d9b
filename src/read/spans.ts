/** Slurs and tuplets: the marks on notes → spans from one event to another. */

import type { NoteValue } from '../score/model/duration.ts';
import type { MusicEvent } from '../score/model/event.ts';
import type { Slur, Tuplet } from '../score/model.ts';
import type { Omissions, SpanMark } from './draft.ts';
import { attribute, child, childText } from './xml/element.ts';

interface Pair {
  readonly start: SpanMark;
  readonly stop: SpanMark;
}

/**
 * Pairs starts and stops of one number: within their voice if they can be, else within the part. A stop
 * may come before its start in the file, as voices are written one after another.
 */
const pairUp = (marks: readonly SpanMark[], omissions: Omissions, what: string): readonly Pair[] => {
  const pairs: Pair[] = [];
  const starts: SpanMark[] = [];
  const stops: SpanMark[] = [];
  for (const mark of marks) {
    const start = mark.type === 'stop' ? takePartner(starts, mark) : undefined;
    if (start !== undefined) pairs.push({ start, stop: mark });
    else if (mark.type === 'start') starts.push(mark);
    else stops.push(mark);
  }
  stops.reverse();
  for (const start of starts) {
    const stop = takePartner(stops, start);
    if (stop === undefined) omissions.add(`${what} without an end`, start.source);
    else pairs.push({ start, stop });
  }
  for (const stop of stops) omissions.add(`${what} without a start`, stop.source);
  return pairs.sort((a, b) => a.start.event - b.start.event || b.stop.event - a.stop.event);
};

/** Nobody has more spans open at once. */
const MOST_OPEN = 64;

/**
 * Takes the latest open mark of that number: first of all of the same voice; last of all one on the very
 * note, as files name a start there before the stop of the span that came from the left.
 */
const takePartner = (open: SpanMark[], mark: SpanMark): SpanMark | undefined => {
  const rank = (other: SpanMark): number =>
    (other.event === mark.event ? 2 : 0) + (other.voice === mark.voice ? 0 : 1);
  let best = -1;
  for (let i = open.length - 1; i >= Math.max(0, open.length - MOST_OPEN); i -= 1) {
    if (open[i]!.number !== mark.number || runsBackwards(open[i]!, mark)) continue;
    if (best < 0 || rank(open[i]!) < rank(open[best]!)) best = i;
    if (rank(open[best]!) === 0) break;
  }
  return best < 0 ? undefined : open.splice(best, 1)[0];
};

/** A voice is written in order of time: a stop of its own that stands before a start does not belong to it. */
const runsBackwards = (open: SpanMark, mark: SpanMark): boolean =>
  open.type === 'stop' && open.voice === mark.voice && open.event < mark.event;

/** Pairs the ends of slurs; an end without another is counted as left out. */
export const slursOf = (marks: readonly SpanMark[], omissions: Omissions): readonly Slur[] =>
  pairUp(marks, omissions, 'slurs').map(({ start, stop }) => {
    const side = attribute(start.node, 'placement') ?? attribute(start.node, 'orientation');
    return { from: start.event, to: stop.event, placement: SIDES.get(side) };
  });

const SIDES: ReadonlyMap<string | undefined, Slur['placement']> = new Map([
  ['above', 'above'],
  ['over', 'above'],
  ['below', 'below'],
  ['under', 'below'],
]);

/** The tuplets of a part, each with the depth at which it is nested. */
export const tupletsOf = (
  marks: readonly SpanMark[],
  omissions: Omissions,
  events: ReadonlyMap<number, MusicEvent>,
): readonly Tuplet[] => {
  let around: { readonly pair: Pair; readonly tuplet: Tuplet }[] = [];
  return pairUp(marks, omissions, 'tuplets').map(pair => {
    const { start, stop } = pair;
    around = around.filter(each => each.pair.stop.event >= start.event).slice(-MOST_OPEN);
    const outer = around.filter(each => encloses(each.pair, pair));
    const inherited = outer.reduce((left, { tuplet }) => without(left, tuplet), ratioAt(events, start.event));
    const tuplet: Tuplet = {
      from: start.event,
      to: stop.event,
      actual: printed(start, 'tuplet-actual') ?? inherited.actual,
      normal: printed(start, 'tuplet-normal') ?? inherited.normal,
      show: SHOWN.get(attribute(start.node, 'show-number')) ?? 'actual',
      bracket: BRACKETS.get(attribute(start.node, 'bracket')),
      depth: outer.length,
    };
    around.push({ pair, tuplet });
    return tuplet;
  });
};

const SHOWN: ReadonlyMap<string | undefined, Tuplet['show']> = new Map([
  ['both', 'both'],
  ['none', 'none'],
]);
const BRACKETS: ReadonlyMap<string | undefined, boolean> = new Map([
  ['yes', true],
  ['no', false],
]);

const encloses = (outer: Pair, inner: Pair): boolean =>
  outer.start.voice === inner.start.voice &&
  outer.start.event <= inner.start.event &&
  outer.stop.event >= inner.stop.event;

const printed = (start: SpanMark, name: string): number | undefined => {
  const part = child(start.node, name);
  const number = Number(part && childText(part, 'tuplet-number'));
  return Number.isInteger(number) && number > 0 ? number : undefined;
};

type Ratio = NonNullable<NoteValue['ratio']>;

const ratioAt = (events: ReadonlyMap<number, MusicEvent>, id: number): Ratio =>
  events.get(id)?.value?.ratio ?? { actual: 1, normal: 1 };

/** What is left of a product of ratios without one of them; the product where it is not in there. */
const without = (product: Ratio, factor: Ratio): Ratio => {
  const actual = product.actual / factor.actual;
  const normal = product.normal / factor.normal;
  return Number.isInteger(actual) && Number.isInteger(normal) ? { actual, normal } : product;
};
