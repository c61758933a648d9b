/** The walk through a part: every element of every measure, in order, read into drafts. */
import type { Print } from 'musicxml-interfaces';
import { NO_SIGNATURE, TREBLE_CLEF } from '../score/model/attributes.ts';
import { PLAIN_BARLINE } from '../score/model/barline.ts';
import type { Ticks } from '../score/model/duration.ts';
import { metreTicks } from '../score/time.ts';
import { carryOn } from './carried-voices.ts';
import { type DraftMeasure, type Ids, Omissions, sourceOf, type Walk } from './draft.ts';
import { completeEndings } from './endings.ts';
import {
  attributesRecord,
  backupRecord,
  barlineRecord,
  forwardRecord,
  noteRecord,
  printRecord,
  type RecordOf,
} from './library.ts';
import { readAttributes } from './measure/attributes.ts';
import { readBarline } from './measure/barline.ts';
import { readDirection, readSound } from './measure/direction.ts';
import { durationTicks } from './measure/duration.ts';
import { readHarmonies } from './measure/harmony.ts';
import { readNote } from './measure/note.ts';
import type { RawMeasure, RawPart } from './parts.ts';
import { extentOf, type Lane, lanesOf, sharedNumbers } from './voices.ts';
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
    for (const node of measure.content) READERS.get(node.nodeName)?.(walk, node);
  }
  completeEndings(walk.measures, walk.omissions);
  const shared = sharedNumbers(walk.measures.map(each => each.placed));
  const lanes = carryOn(walk.measures.map(each => lanesOf(each.placed, shared)));
  const extents = walk.measures.map((each, index) =>
    extentOf(lanes[index]!, each.gapEnd, metreTicks(each.time, walk.division)),
  );
  return { walk, name, lanes, extents };
};

const newWalk = (raw: RawPart, { division, ids }: { readonly division: Ticks; readonly ids: Ids }): Walk => ({
  division,
  ids,
  part: raw.id,
  omissions: new Omissions(),
  faults: [],
  slurs: [],
  tuplets: [],
  ties: [],
  measures: [],
  divisions: 1,
  isDivided: false,
  key: NO_SIGNATURE,
  writtenKey: NO_SIGNATURE,
  time: undefined,
  clef: TREBLE_CLEF,
  transposed: undefined,
  transpositions: new Map(),
  get measure(): DraftMeasure {
    return this.measures.at(-1)!;
  },
  now: 0,
  chordAt: 0,
  chord: undefined,
  repeatsNext: false,
});

const startMeasure = (walk: Walk, raw: RawMeasure): void => {
  walk.measures.push({
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
    left: { ...PLAIN_BARLINE, repeat: walk.repeatsNext },
    right: PLAIN_BARLINE,
    breakBefore: undefined,
    gapEnd: 0,
  });
  walk.now = 0;
  walk.chordAt = 0;
  walk.chord = undefined;
  walk.repeatsNext = false;
};

type Reader = (walk: Walk, node: XmlElement) => void;

/** A reader that also takes the library's record of the element. */
const withRecord =
  <T>(recordOf: RecordOf<T>, read: (walk: Walk, node: XmlElement, record: T) => void): Reader =>
  (walk, node) =>
    read(walk, node, recordOf(node));

/** What a measure may hold. Anything else in it (links, bookmarks, …) is no music. */
const READERS: ReadonlyMap<string, Reader> = new Map<string, Reader>([
  ['note', withRecord(noteRecord, readNote)],
  ['attributes', withRecord(attributesRecord, readAttributes)],
  [
    'backup',
    withRecord(backupRecord, (walk, node, { duration }) =>
      goBack(walk, node, durationTicks(walk, node, duration)),
    ),
  ],
  [
    'forward',
    withRecord(forwardRecord, (walk, node, { duration }) => skip(walk, durationTicks(walk, node, duration))),
  ],
  ['harmony', readHarmonies],
  ['direction', readDirection],
  ['sound', readSound],
  ['barline', withRecord(barlineRecord, readBarline)],
  ['print', withRecord(printRecord, readPrint)],
  ['figured-bass', (walk, node) => walk.omissions.add('figured bass', sourceOf(walk, node))],
]);

const move = (walk: Walk, to: Ticks): void => {
  walk.now = to;
  walk.chord = undefined;
};

const goBack = (walk: Walk, node: XmlElement, ticks: Ticks): void => {
  if (ticks > walk.now) walk.omissions.add('moves back to before their measure', sourceOf(walk, node));
  move(walk, Math.max(0, walk.now - ticks));
};

/** A gap that the file leaves in a voice; it still fills the measure. */
const skip = (walk: Walk, ticks: Ticks): void => {
  move(walk, walk.now + ticks);
  walk.measure.gapEnd = Math.max(walk.measure.gapEnd, walk.now);
};

function readPrint(walk: Walk, _: XmlElement, print: Print): void {
  if (walk.measures.length === 1) return;
  if (print.newPage) walk.measure.breakBefore = 'page';
  else if (print.newSystem) walk.measure.breakBefore ??= 'system';
}
