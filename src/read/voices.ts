/**
 * Sorts the events of a part into voices. A voice is what the file numbers so, whatever staff its notes
 * stand on; but where a number is used again on another staff at the same time, each staff has its own
 * voice ("1", "1/2"), and where events of one voice overlap nevertheless, the later ones make voices of
 * their own ("1b", "1c").
 */
import { Refusal } from '../score/diagnostic.ts';
import type { Ticks } from '../score/model/duration.ts';
import type { Voice } from '../score/model.ts';
import { midi } from '../score/pitch.ts';
import { exactValue, nearestValue } from '../score/time.ts';
import type { DraftEvent, Placed } from './draft.ts';

/** What one voice of a measure holds, in order of time. */
export interface Lane {
  readonly id: string;
  readonly staff: number;
  readonly placed: Placed[];
  /** Where its last event ends. */
  end: Ticks;
}

/** The numbers that are used on several staves at once. */
export const sharedNumbers = (measures: readonly (readonly Placed[])[]): ReadonlySet<string> => {
  const shared = new Set<string>();
  for (const placed of measures) {
    if (!placed.some(each => each.staff !== placed[0]!.staff)) continue;
    const ends = new Map<string, { staff: number; end: Ticks }>();
    for (const { event, voice, staff } of placed) {
      const before = ends.get(voice);
      if (before !== undefined && before.staff !== staff && event.at < before.end) shared.add(voice);
      ends.set(voice, { staff, end: Math.max(before?.end ?? 0, event.at + event.duration) });
    }
  }
  return shared;
};

/** The voices of one measure, in the order of their first events. */
export const lanesOf = (placed: readonly Placed[], shared: ReadonlySet<string>): readonly Lane[] => {
  const lanes = new Map<string, Lane>();
  for (const each of placed) {
    const { event, staff } = each;
    const name = shared.has(each.voice) && staff > 1 ? `${each.voice}/${staff}` : each.voice;
    const lane = freeLane(lanes, name, staff, event);
    insert(lane, each);
  }
  return [...lanes.values()];
};

const freeLane = (lanes: Map<string, Lane>, name: string, staff: number, event: DraftEvent): Lane => {
  for (const suffix of SUFFIXES) {
    const id = name + suffix;
    const lane = lanes.get(id);
    if (lane !== undefined && !hasRoom(lane, event)) continue;
    if (lane !== undefined) return lane;
    const fresh: Lane = { id, staff, placed: [], end: 0 };
    lanes.set(id, fresh);
    return fresh;
  }
  throw new Refusal({
    severity: 'error',
    code: 'tangled-voice',
    message: `more than ${SUFFIXES.length} notes or rests of voice "${name}" sound at once`,
    hint: 'export the tune again; each voice should have one note or chord at a time',
    place: event.source,
  });
};

/** Whether nothing sounds there: files may write a later part of a voice first, and go back for an earlier one. */
export const hasRoom = (lane: Lane, { at, duration }: DraftEvent): boolean =>
  at >= lane.end ||
  lane.placed.every(({ event }) => {
    const end = event.at + event.duration;
    return end <= at || (duration === 0 ? at < event.at : at + duration <= event.at);
  });

/** Puts an event where it belongs in time: after those that begin with it. */
export const insert = (lane: Lane, placed: Placed): void => {
  const { at, duration } = placed.event;
  let index = lane.placed.length;
  while (index > 0 && lane.placed[index - 1]!.event.at > at) index -= 1;
  lane.placed.splice(index, 0, placed);
  lane.end = Math.max(lane.end, at + duration);
};

const SUFFIXES = ['', ...'bcdefghijklmnopqrstuvwxyz'];

/** Whether a lane holds nothing but a rest that may be a whole-measure rest. */
const loneRest = (lane: Lane): Placed | undefined =>
  lane.placed.length === 1 && lane.placed[0]!.fills !== 'no' ? lane.placed[0] : undefined;

/**
 * The extent that the voices of a measure fill; whole-measure rests fill what the others leave them, and
 * so do whole rests that are longer than the metre has room for (common practice).
 */
export const extentOf = (lanes: readonly Lane[], gapEnd: Ticks, metre: Ticks | undefined): Ticks => {
  // A gap at the end is there to fill the metre, and cannot ask for more.
  const gap = Math.min(gapEnd, metre ?? gapEnd);
  let extent: Ticks = 0;
  let resting: Ticks = 0;
  for (const lane of lanes) {
    const rest = loneRest(lane);
    const fits = metre === undefined || lane.end <= metre;
    if (rest === undefined || (rest.fills === 'maybe' && fits)) extent = Math.max(extent, lane.end);
    else resting = Math.max(resting, lane.end);
  }
  // Writers are known to give whole-measure rests the length of a whole note, whatever the metre.
  return Math.max(gap, extent > 0 ? extent : Math.min(resting, metre ?? resting));
};

/** The finished voices of a measure of that length. */
export const voicesOf = (lanes: readonly Lane[], length: Ticks, division: Ticks): readonly Voice[] =>
  lanes.map(lane => {
    const rest = loneRest(lane);
    const fills = rest !== undefined && (rest.fills === 'asked' || rest.event.duration >= length);
    for (const { event, fills: kind } of lane.placed) {
      if (event.kind === 'note') {
        if (event.heads.length > 1) event.heads.sort((a, b) => midi(a.pitch) - midi(b.pitch));
        continue;
      }
      event.wholeMeasure = fills;
      if (fills) {
        event.duration = length;
        event.value = undefined;
      } else if (kind === 'asked') {
        event.value = exactValue(event.duration, division) ?? nearestValue(event.duration, division);
      }
    }
    return { id: lane.id, staff: lane.staff, events: lane.placed.map(each => each.event) };
  });
