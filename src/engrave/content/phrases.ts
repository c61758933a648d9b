/**
 * Where phrases end, as far as notes and words tell: at rests, long notes, breaths and the ends of slurs,
 * at punctuation and before capital letters. A tune that starts with a pickup breathes before the pickups
 * of its later phrases too, though the bar line comes after them. Common practice; the weights are ours.
 */

import type { Ticks } from '../../score/model/duration.ts';
import type { MusicEvent, NoteEvent } from '../../score/model/event.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';
import { nominalLength } from './metre.ts';

const RESTS = 0.8;
const LONG = 0.5;
const BREATHES = 1;
const SLUR_ENDS = 0.25;
const FULL_STOP = 0.6;
const COMMA = 0.35;
const CAPITAL = 0.3;
/** A note or slur that goes on over the bar line is better not cut in two. */
const TIED = -0.6;
const SLURRED = -0.4;

const isNote = (event: MusicEvent | undefined): event is NoteEvent => event?.kind === 'note';

/** How long the tune sounds before its first full measure, whether or not rests fill that measure up. */
export function pickupLength({ measures, division }: Tune): Ticks {
  const first = measures[0];
  if (!first || measures.length < 2) return 0;
  const starts = first.events.find(isNote)?.at ?? 0;
  const sounds = first.length - starts;
  return sounds * 2 <= nominalLength(first, division) || first.implicit ? sounds : 0;
}

/** Words that the first verse ends with at a note, and begins with after it. */
function wordsWeight(before: readonly NoteEvent[], after: readonly NoteEvent[]): number {
  const last = before.at(-1)?.lyrics[0];
  const next = after[0]?.lyrics[0];
  if (last?.syllabic === 'begin' || last?.syllabic === 'middle') return -COMMA;
  const end = last?.text.trim().at(-1) ?? '';
  const stop = '.;:!?'.includes(end) && end !== '' ? FULL_STOP : end === ',' ? COMMA : 0;
  const start = next?.text.trim().replace(/^[^\p{L}]+/u, '') ?? '';
  const capital = /^\p{Lu}/u.test(start) && start !== 'I' ? CAPITAL : 0;
  return stop + capital;
}

/** How long an event sounds, ties counted, from its own start. */
function sounding(event: NoteEvent, events: readonly MusicEvent[]): Ticks {
  let length = event.duration;
  let tie = event.heads[0]?.tieTo;
  for (const next of events.slice(events.indexOf(event) + 1)) {
    if (tie === undefined) break;
    if (!isNote(next) || !next.heads.some(head => head.id === tie)) continue;
    length += next.duration;
    tie = next.heads[0]?.tieTo;
  }
  return length;
}

/** How much a phrase seems to end just before the tick `at` of a measure. */
function weightAt(tune: Tune, index: number, at: Ticks, slurEnds: ReadonlySet<number>): number {
  const measure = tune.measures[index]!;
  const next = tune.measures[index + 1]!;
  const here = measure.events.filter(event => event.kind === 'rest' || !event.grace);
  const last = here.findLast(event => event.at < at) ?? tune.measures[index - 1]?.events.at(-1);
  if (!last) return 0;
  const half = nominalLength(measure, tune.division) / 2;
  const words = wordsWeight(
    here.filter(isNote).filter(event => event.at < at && event.lyrics.length > 0),
    [...here.filter(event => event.at >= at), ...next.events].filter(isNote),
  );
  if (!isNote(last)) return RESTS + words;
  const breathes = last.fermata || last.articulations.some(each => each === 'breath' || each === 'caesura');
  return (
    words +
    (breathes ? BREATHES : 0) +
    (sounding(last, here) >= half ? LONG : 0) +
    (slurEnds.has(last.id) ? SLUR_ENDS : 0)
  );
}

/** What a break at the bar line would cut in two. */
function cut(measure: TuneMeasure, slurs: Tune['slurs']): number {
  const last = measure.events.findLast(isNote);
  if (!last) return 0;
  const tied = last === measure.events.at(-1) && last.heads.some(head => head.tieTo !== undefined);
  const slurred = slurs.some(({ from, to }) => from <= last.id && to > last.id);
  return tied ? TIED : slurred ? SLURRED : 0;
}

/**
 * For each bar line, by the index of the measure before it, how well a system may end there as far as the
 * phrases go: 1 is the plain end of a phrase, 0 says nothing, below 0 something is cut in two.
 */
export function phraseEnds(tune: Tune): number[] {
  const pickup = pickupLength(tune);
  const slurEnds = new Set(tune.slurs.map(({ to }) => to));
  return tune.measures.map((measure, index) => {
    if (index === tune.measures.length - 1) return 1;
    const at = Math.max(0, measure.length - pickup);
    return Math.min(1, weightAt(tune, index, at, slurEnds)) + cut(measure, tune.slurs);
  });
}
