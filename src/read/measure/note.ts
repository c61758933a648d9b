/** `<note>`: notes, rests, chords, grace and cue notes; and the walk of time. */
import { BeamType, type Note, StemType } from 'musicxml-interfaces';
import { type BeamMark, UNMARKED } from '../../score/model/event.ts';
import type { Pitch } from '../../score/pitch.ts';
import {
  type DraftHead,
  type DraftNote,
  type DraftRest,
  type Placed,
  sourceOf,
  type Walk,
} from '../draft.ts';
import { childText, type XmlElement } from '../xml/element.ts';
import { checkLength, countMarks } from './beside.ts';
import { durationTicks } from './duration.ts';
import { addLyrics } from './lyrics.ts';
import { readMarked, readNotations, readTies } from './notations.ts';
import { addFault, pitchOf } from './pitch.ts';
import { readValue } from './value.ts';

/** Takes a `<note>` into the measure: a note, a further head of a chord, or a rest. */
export const readNote = (walk: Walk, node: XmlElement, data: Note): void => {
  const staff = data.staff !== undefined && data.staff > 0 ? data.staff : 1;
  const inChord = data.chord !== undefined && walk.chord !== undefined;
  const voice = inChord ? walk.chord!.voice : voiceOf(node, data);
  const ticks = data.grace === undefined ? durationTicks(walk, node, data.duration) : 0;
  const pitch = data.rest === undefined ? pitchOf(walk, node, data, staff) : undefined;
  const joins = inChord && (typeof pitch === 'string' || walk.chord!.event.kind === 'note');
  const placed = joins
    ? walk.chord!
    : newEvent(walk, node, data, { voice, staff, ticks, inChord, pitched: typeof pitch === 'object' });
  if (typeof pitch === 'string') addFault(walk, node, placed, pitch);
  else if (pitch && placed.event.kind === 'note') addHead(walk, node, data, placed.event, pitch);
  if (data.notations !== undefined) readNotations(walk, node, placed);
  addLyrics(walk, node, placed);
  checkLength(walk, node, data, placed, ticks);
  countMarks(walk, node, data, placed);
};

/** The library reads voices as numbers; the file may name them otherwise. */
const voiceOf = (node: XmlElement, data: Note): string => {
  if (data.voice === undefined) return '1';
  return Number.isInteger(data.voice) ? String(data.voice) : (childText(node, 'voice') ?? '1');
};

interface NewEvent {
  readonly voice: string;
  readonly staff: number;
  readonly ticks: number;
  readonly inChord: boolean;
  readonly pitched: boolean;
}

/** A new event at the present time, which moves on by its length; at the chord's if it belongs to one. */
const newEvent = (walk: Walk, node: XmlElement, data: Note, how: NewEvent): Placed => {
  const at = how.inChord ? walk.chordAt : walk.now;
  const event = how.pitched
    ? newNote(walk, node, data, at, how.ticks)
    : newRest(walk, node, data, at, how.ticks);
  const fills = event.kind === 'rest' ? fillsMeasure(data, event) : 'no';
  const placed: Placed = { event, voice: how.voice, staff: how.staff, fills };
  walk.measure.placed.push(placed);
  walk.chord = placed;
  walk.chordAt = at;
  walk.now = Math.max(walk.now, at + how.ticks);
  return placed;
};

const newNote = (walk: Walk, node: XmlElement, data: Note, at: number, ticks: number): DraftNote => ({
  id: walk.ids.next(),
  kind: 'note',
  at,
  duration: ticks,
  value: readValue(walk, node, data, ticks),
  fermata: false,
  heads: [],
  grace: data.grace === undefined ? undefined : data.grace.slash ? 'slashed' : 'plain',
  cue: data.cue !== undefined,
  stem: stemOf(data),
  beams: data.beams === undefined ? NO_BEAMS : beamsOf(data.beams),
  articulations: [],
  lyrics: NO_LYRICS,
  source: sourceOf(walk, node),
});

/** A rest, or the silence that stands for a note without a pitch. */
const newRest = (walk: Walk, node: XmlElement, data: Note, at: number, ticks: number): DraftRest => ({
  id: walk.ids.next(),
  kind: 'rest',
  at,
  duration: ticks,
  value: readValue(walk, node, data, ticks),
  fermata: false,
  wholeMeasure: false,
  source: sourceOf(walk, node),
});

/** Files often write a whole-measure rest as a rest without a type, or as a whole rest. */
const fillsMeasure = (data: Note, event: DraftRest): Placed['fills'] => {
  if (data.rest?.measure === true) return 'asked';
  const isWhole = data.noteType === undefined || (event.value?.base === 1 && event.value.dots === 0);
  return data.rest !== undefined && event.at === 0 && isWhole ? 'maybe' : 'no';
};

const NO_BEAMS: readonly BeamMark[] = Object.freeze([]);
const NO_LYRICS: DraftNote['lyrics'] = Object.freeze([]);

const STEMS: Partial<Record<StemType, DraftNote['stem']>> = { [StemType.Up]: 'up', [StemType.Down]: 'down' };

const stemOf = (data: Note): DraftNote['stem'] =>
  data.stem === undefined ? undefined : STEMS[data.stem.type];

const BEAMS: Readonly<Record<BeamType, BeamMark>> = {
  [BeamType.Begin]: 'begin',
  [BeamType.Continue]: 'continue',
  [BeamType.End]: 'end',
  [BeamType.ForwardHook]: 'forward hook',
  [BeamType.BackwardHook]: 'backward hook',
};

/** One entry a level, without holes. */
const beamsOf = (beams: NonNullable<Note['beams']>): readonly BeamMark[] => {
  const marks: BeamMark[] = [];
  for (let level = 1; level <= beams.length; level += 1) {
    const beam = beams.find(each => each.number === level);
    const mark = beam && BEAMS[beam.type];
    if (mark === undefined) break;
    marks.push(mark);
  }
  return marks;
};

const addHead = (walk: Walk, node: XmlElement, data: Note, event: DraftNote, pitch: Pitch): void => {
  const head: DraftHead = {
    id: walk.ids.next(),
    pitch,
    courtesy: false,
    tieTo: undefined,
    tieFrom: undefined,
    marked: data.notations === undefined ? UNMARKED : readMarked(node),
    source: event.heads.length === 0 ? event.source : sourceOf(walk, node),
  };
  event.heads.push(head);
  const accidental = data.accidental;
  if (accidental !== undefined) {
    const asked = [accidental.cautionary, accidental.editorial, accidental.parentheses, accidental.bracket];
    walk.measure.printed.push({ head, asked: asked.includes(true) });
  }
  if (data.ties !== undefined || data.notations !== undefined) {
    const { start, stop } = readTies(data);
    if (start || stop) walk.ties.push({ head, start, stop });
  }
};
