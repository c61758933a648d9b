/** One part of the score: walks through its measures, then joins what spans them. */

import { neededAccidentals } from '../score/accidentals.ts';
import type { Barline, Measure, MusicEvent, Part, Ticks } from '../score/model.ts';
import { metreTicks } from '../score/time.ts';
import { type DraftMeasure, type Ids, Omissions, refuseAt, sourceOf, type Walk } from './draft.ts';
import { completeEndings } from './endings.ts';
import { type Item, readItems } from './library.ts';
import { intervalOn, NO_SIGNATURE, readAttributes, TREBLE } from './measure/attributes.ts';
import { PLAIN_BARLINE, readBarline } from './measure/barline.ts';
import { readDirection, readSound } from './measure/direction.ts';
import { durationTicks } from './measure/duration.ts';
import { readHarmony } from './measure/harmony.ts';
import { readNote } from './measure/note.ts';
import type { RawMeasure, RawPart } from './parts.ts';
import { slursOf, tupletsOf } from './spans.ts';
import { isJumpTarget, joinTies, type Sounding } from './ties.ts';
import { extentOf, type Lane, lanesOf, sharedNumbers, voicesOf } from './voices.ts';
import type { XmlElement } from './xml/element.ts';

/** A part that has been walked through, and the extents that its own voices give its measures. */
export interface WalkedPart {
  readonly walk: Walk;
  readonly name: string;
  readonly lanes: readonly (readonly Lane[])[];
  readonly extents: readonly Ticks[];
}

/** Reads every element of a part, in order. */
export const walkPart = (
  raw: RawPart,
  name: string,
  score: { readonly division: Ticks; readonly ids: Ids },
): WalkedPart => {
  const walk = newWalk(raw, score);
  for (const measure of raw.measures) {
    startMeasure(walk, measure);
    for (const item of readItems(measure.content)) readItem(walk, item);
  }
  completeEndings(walk.measures, walk.omissions);
  const shared = sharedNumbers(walk.measures.map(each => each.placed));
  const lanes = walk.measures.map(each => lanesOf(each.placed, shared));
  const extents = walk.measures.map((each, index) =>
    extentOf(lanes[index]!, each.gapEnd, metreTicks(each.time, walk.division)),
  );
  return { walk, name, lanes, extents };
};

const newWalk = (raw: RawPart, score: { readonly division: Ticks; readonly ids: Ids }): Walk => ({
  ...score,
  part: raw.id,
  omissions: new Omissions(),
  faults: [],
  slurs: [],
  tuplets: [],
  ties: [],
  measures: [],
  divisions: 1,
  key: NO_SIGNATURE,
  writtenKey: NO_SIGNATURE,
  time: undefined,
  clef: TREBLE,
  transpositions: new Map(),
  measure: undefined as unknown as DraftMeasure,
  now: 0,
  chordAt: 0,
  chord: undefined,
});

const startMeasure = (walk: Walk, raw: RawMeasure): void => {
  walk.measure = {
    raw,
    source: { line: raw.line, part: walk.part, measure: raw.number },
    key: walk.key,
    time: walk.time,
    clef: walk.clef,
    changes: [],
    placed: [],
    printed: [],
    chordSymbols: [],
    directions: [],
    left: PLAIN_BARLINE,
    right: PLAIN_BARLINE,
    breakBefore: undefined,
    gapEnd: 0,
  };
  walk.measures.push(walk.measure);
  walk.now = 0;
  walk.chordAt = 0;
  walk.chord = undefined;
};

const readItem = (walk: Walk, item: Item): void => {
  const { node } = item;
  switch (item.kind) {
    case 'note':
      readNote(walk, node, item.data);
      break;
    case 'attributes':
      readAttributes(walk, node, item.data);
      break;
    case 'backup':
      moveTo(walk, Math.max(0, walk.now - durationTicks(walk, node, item.data.duration)));
      break;
    case 'forward':
      moveTo(walk, walk.now + durationTicks(walk, node, item.data.duration));
      walk.measure.gapEnd = Math.max(walk.measure.gapEnd, walk.now);
      break;
    case 'harmony':
      readHarmony(walk, node, item.data);
      break;
    case 'direction':
      readDirection(walk, node, item.data);
      break;
    case 'sound':
      readSound(walk, node);
      break;
    case 'barline':
      readBarline(walk, node, item.data);
      break;
    case 'print':
      if (walk.measures.length > 1) walk.measure.breakBefore = breakOf(item.data) ?? walk.measure.breakBefore;
      break;
    case 'figured-bass':
      walk.omissions.add('figured bass', sourceOf(walk, node));
      break;
    case 'grouping':
      break;
    case 'unreadable':
      skipUnreadable(walk, node);
  }
};

const moveTo = (walk: Walk, now: Ticks): void => {
  walk.now = now;
  walk.chord = undefined;
};

const breakOf = (print: {
  readonly newSystem?: boolean;
  readonly newPage?: boolean;
}): 'system' | 'page' | undefined => (print.newPage ? 'page' : print.newSystem ? 'system' : undefined);

/** What the time of the notes depends on cannot be skipped. */
const skipUnreadable = (walk: Walk, node: XmlElement): void => {
  if (['note', 'attributes', 'backup', 'forward'].includes(node.nodeName)) {
    throw refuseAt(walk, node, {
      code: 'unreadable-element',
      message: `<${node.nodeName}> is not as MusicXML has it`,
      hint: 'mend it in the file, or export the tune again',
    });
  }
  walk.omissions.add(`unreadable <${node.nodeName}> elements`, sourceOf(walk, node));
};

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
    soundings.push(...soundingsOf(lanes[index]!, at, isJumpTarget(draft.left, before)));
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
    transposed: intervalOn(walk, 1)?.semitones ?? 0,
    measures,
    slurs: slursOf(walk.slurs, walk.omissions),
    tuplets: tupletsOf(walk.tuplets, walk.omissions, events),
    faults: walk.faults.map(({ event, diagnostic }) => ({ voice: voiceOf.get(event)!, diagnostic })),
    leftOut: walk.omissions.list(),
  };
};

const byTime = <T extends { readonly at: Ticks }>(list: readonly T[]): readonly T[] =>
  [...list].sort((a, b) => a.at - b.at);

const soundingsOf = (lanes: readonly Lane[], measureAt: Ticks, isTarget: boolean): readonly Sounding[] => {
  const soundings: Sounding[] = [];
  for (const lane of lanes) {
    for (const { event } of lane.placed) {
      if (event.kind !== 'note') continue;
      const from = measureAt + event.at;
      const afterJump = isTarget && event.at === 0;
      soundings.push({ heads: event.heads, voice: lane.id, from, to: from + event.duration, afterJump });
    }
  }
  return soundings.sort((a, b) => a.from - b.from);
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
