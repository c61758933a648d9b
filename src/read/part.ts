/** A part that has been walked through → the finished part: lengths, voices, and what spans measures. */
import { neededAccidentals } from '../score/accidentals.ts';
import type { Barline } from '../score/model/barline.ts';
import type { Ticks } from '../score/model/duration.ts';
import type { MusicEvent } from '../score/model/event.ts';
import type { Measure, Part } from '../score/model.ts';
import type { Walk } from './draft.ts';
import { slursOf, tupletsOf } from './spans.ts';
import { isJumpTarget, joinTies, type Sounding } from './ties.ts';
import { type Lane, voicesOf } from './voices.ts';
import type { WalkedPart } from './walk.ts';

/** The finished part, once the lengths of all measures of the score are known. */
export const finishPart = (part: WalkedPart, lengths: readonly Ticks[]): Part => {
  const { walk, lanes } = part;
  const measures: Measure[] = [];
  const events = new Map<number, MusicEvent>();
  const voiceOf = new Map<number, string>();
  const soundings: Sounding[] = [];
  let at = 0;
  let before: Barline | undefined;
  for (const [index, draft] of walk.measures.entries()) {
    const length = lengths[index]!;
    const voices = voicesOf(lanes[index]!, length, walk.division);
    for (const { id, events: list } of voices) {
      for (const event of list) {
        events.set(event.id, event);
        voiceOf.set(event.id, id);
      }
    }
    addSoundings(soundings, lanes[index]!, at, isJumpTarget(draft.left, before));
    measures.push({
      index,
      number: draft.raw.number,
      implicit: draft.raw.implicit,
      at,
      length,
      key: draft.key,
      time: draft.time,
      clef: draft.clef,
      changes: byTime(draft.changes),
      voices,
      chordSymbols: byTime(draft.chordSymbols),
      directions: byTime(draft.directions),
      left: draft.left,
      right: draft.right,
      breakBefore: draft.breakBefore,
      source: draft.source,
    });
    at += length;
    before = draft.right;
  }
  joinTies(walk.ties, soundings, walk.omissions);
  markCourtesies(walk, measures);
  return {
    id: walk.part,
    name: part.name,
    transposed: walk.transposed ?? 0,
    measures,
    slurs: slursOf(walk.slurs, walk.omissions),
    tuplets: tupletsOf(walk.tuplets, walk.omissions, events),
    faults: walk.faults.map(({ event, diagnostic }) => ({ voice: voiceOf.get(event)!, diagnostic })),
    leftOut: walk.omissions.list(),
  };
};

const byTime = <T extends { readonly at: Ticks }>(list: readonly T[]): readonly T[] =>
  [...list].sort((a, b) => a.at - b.at);

/** Adds the notes of a measure, in order of time. */
const addSoundings = (
  soundings: Sounding[],
  lanes: readonly Lane[],
  measureAt: Ticks,
  isTarget: boolean,
): void => {
  const own: Sounding[] = [];
  for (const lane of lanes) {
    for (const { event } of lane.placed) {
      if (event.kind !== 'note') continue;
      const from = measureAt + event.at;
      const afterJump = isTarget && event.at === 0;
      own.push({ heads: event.heads, voice: lane.id, from, to: from + event.duration, afterJump });
    }
  }
  if (lanes.length > 1) own.sort((a, b) => a.from - b.from);
  for (const each of own) soundings.push(each);
};

/** A printed accidental is a courtesy where the file says so, or where the voice would not need it. */
const markCourtesies = (walk: Walk, measures: readonly Measure[]): void => {
  for (const [index, { printed }] of walk.measures.entries()) {
    if (printed.length === 0) continue;
    const { key, changes, voices } = measures[index]!;
    const needed = voices.map(voice => neededAccidentals(voice.events, key, changes));
    for (const { head, asked } of printed) {
      head.courtesy = asked || !needed.some(ids => ids.has(head.id));
    }
  }
};
