/**
 * Beam groups. Those that the file gives win; otherwise notes shorter than a quarter are beamed by the
 * beats of the metre.
 */

import type { Ticks } from '../../score/model/duration.ts';
import type { NoteEvent } from '../../score/model/event.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';
import { grouping, metreOffset } from './metre.ts';

export interface BeamGroup {
  readonly events: readonly NoteEvent[];
  /** From the eighth-note beam inwards; `from` and `to` are indices into `events`, inclusive. */
  readonly segments: readonly BeamSegment[];
}

export interface BeamSegment {
  readonly level: number;
  readonly from: number;
  readonly to: number;
  /** A stub, where from = to, on this side of its stem. */
  readonly hook?: 'left' | 'right';
}

/** Number of flags or beams a value carries. */
export const flagCount = (base: number): number => (base < 8 ? 0 : Math.log2(base) - 2);

const beamable = (event: TuneMeasure['events'][number]): event is NoteEvent =>
  event.kind === 'note' && flagCount(event.value.base) > 0;

/** Which way a lone inner note's stub points: towards the note with which it makes up a longer value. */
function hookSide(events: readonly NoteEvent[], index: number): 'left' | 'right' {
  if (index === 0) return 'right';
  if (index === events.length - 1) return 'left';
  const { at, duration } = events[index]!;
  return duration > 0 && (at - events[0]!.at) % (2 * duration) === 0 ? 'right' : 'left';
}

function segmentsAt(events: readonly NoteEvent[], level: number, unit: Ticks): BeamSegment[] {
  const segments: BeamSegment[] = [];
  for (let from = 0; from < events.length; from++) {
    if (flagCount(events[from]!.value.base) < level) continue;
    let to = from;
    while (to + 1 < events.length && joins(events, to, level, unit)) to++;
    if (to > from) segments.push({ level, from, to });
    else segments.push({ level, from, to, hook: givenHook(events[from]!, level) ?? hookSide(events, from) });
    from = to;
  }
  return segments;
}

/**
 * Whether the beam of a level runs on from an event to the next. Among thirty-seconds and shorter, inner
 * beams break at every `unit` (an eighth), to show it; given beams decide for themselves.
 */
function joins(events: readonly NoteEvent[], index: number, level: number, unit: Ticks): boolean {
  const next = events[index + 1]!;
  if (flagCount(next.value.base) < level) return false;
  const mark = events[index]!.beams[level - 1];
  if (mark !== undefined) return mark === 'begin' || mark === 'continue';
  const short = events.some(event => flagCount(event.value.base) > 2);
  return level === 1 || !short || (next.at - events[0]!.at) % unit !== 0;
}

function givenHook(event: NoteEvent, level: number): 'left' | 'right' | undefined {
  const mark = event.beams[level - 1];
  return mark === 'forward hook' ? 'right' : mark === 'backward hook' ? 'left' : undefined;
}

function group(events: readonly NoteEvent[], unit: Ticks): BeamGroup {
  const levels = Math.max(...events.map(event => flagCount(event.value.base)));
  const segments = Array.from({ length: levels }, (_, i) => segmentsAt(events, i + 1, unit)).flat();
  return { events, segments };
}

/** Groups as the file's begin … end marks say; undefined where the marks do not fit together. */
function givenGroups(events: readonly NoteEvent[]): NoteEvent[][] | undefined {
  const groups: NoteEvent[][] = [];
  let open: NoteEvent[] | undefined;
  for (const event of events) {
    const mark = event.beams[0];
    if (mark === 'begin') {
      if (open) return undefined;
      open = [event];
    } else if (mark === 'continue' || mark === 'end') {
      if (!open || flagCount(event.value.base) === 0) return undefined;
      open.push(event);
      if (mark === 'end') {
        groups.push(open);
        open = undefined;
      }
    }
  }
  return open ? undefined : groups;
}

/** Index of the span that a tick lies in; past the last span they repeat. */
function spanAt(spans: readonly Ticks[], at: Ticks): number {
  let edge = 0;
  for (let index = 0; ; index++) {
    edge += spans[index % spans.length]!;
    if (at < edge) return index;
  }
}

function metricGroups(measure: TuneMeasure, division: Ticks): NoteEvent[][] {
  const { beats, spans } = grouping(measure.time, division);
  const offset = metreOffset(measure, division);
  const groups: NoteEvent[][] = [];
  let open: { span: number; beat: number; events: NoteEvent[] } | undefined;
  for (const event of measure.events) {
    if (event.kind === 'note' && event.grace) continue;
    if (!beamable(event)) {
      open = undefined;
      continue;
    }
    const span = spanAt(spans, event.at + offset);
    const beat = spanAt(beats, event.at + offset);
    // Anything but plain eighths shows every beat.
    const plain = (each: NoteEvent) => each.value.base === 8 && each.value.dots === 0 && !each.value.ratio;
    const joined =
      open && (open.beat === beat || (open.span === span && plain(event) && open.events.every(plain)));
    if (open && joined) {
      open.events.push(event);
      open.beat = beat;
    } else {
      open = { span, beat, events: [event] };
      groups.push(open.events);
    }
  }
  return groups.filter(events => events.length > 1);
}

/** Runs of grace notes before one note. */
function graceGroups(measure: TuneMeasure): NoteEvent[][] {
  const runs: NoteEvent[][] = [[]];
  for (const event of measure.events) {
    if (beamable(event) && event.grace) runs.at(-1)!.push(event);
    else runs.push([]);
  }
  return runs.filter(run => run.length > 1);
}

/** Beam groups of the whole tune, grace notes included, in order. */
export function beamGroups(tune: Tune): BeamGroup[] {
  const ordinary = (measure: TuneMeasure) => measure.events.filter(beamable).filter(event => !event.grace);
  const given = tune.measures.some(measure => ordinary(measure).some(event => event.beams.length > 0));
  return tune.measures.flatMap(measure => {
    const byFile = given ? givenGroups(ordinary(measure)) : undefined;
    const groups = byFile ?? metricGroups(measure, tune.division);
    return [...groups, ...graceGroups(measure)].map(events => group(events, tune.division / 2));
  });
}
