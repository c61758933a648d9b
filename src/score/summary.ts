/** What is in a score, as plain data: what a reader of the file wants to know before arranging it. */

import { type Group, groupBy } from './groups.ts';
import type { Key, TimeSignature } from './model/attributes.ts';
import type { MusicEvent } from './model/event.ts';
import type { Heading, LeftOut, Part, Score, Voice } from './model.ts';
import { midi, type Pitch } from './pitch.ts';

/** What is in a score. */
export interface Summary {
  readonly heading: Heading;
  readonly measures: number;
  readonly parts: readonly PartSummary[];
}

/** What is in a part. */
export interface PartSummary {
  readonly id: string;
  readonly name: string;
  /** Semitones from the written to the sounding pitch. */
  readonly transposed: number;
  /** At the start, and what they change to, without repetitions. */
  readonly keys: readonly Key[];
  readonly times: readonly TimeSignature[];
  readonly voices: readonly VoiceSummary[];
  readonly chordSymbols: number;
  /** What the file has and the sheets do not show. */
  readonly leftOut: readonly LeftOut[];
}

/** What is in a voice. */
export interface VoiceSummary {
  readonly id: string;
  /** The staff on which it begins. */
  readonly staff: number;
  /** Struck notes; those of a chord count one by one, tied-to notes not at all. */
  readonly notes: number;
  readonly chords: number;
  readonly cueNotes: number;
  /** Lowest and highest sounding pitch; undefined without notes. */
  readonly range: { readonly lowest: Pitch; readonly highest: Pitch } | undefined;
  /** Names of the verses that it has, in order of appearance. */
  readonly verses: readonly string[];
  /** Codes of what makes it unfit to be the melody. */
  readonly faults: readonly string[];
}

/** Counts what is in a score, part by part. */
export const summarise = (score: Score): Summary => {
  const { division: _, parts, ...heading } = score;
  return {
    heading,
    measures: parts.reduce((most, part) => Math.max(most, part.measures.length), 0),
    parts: parts.map(summarisePart),
  };
};

const summarisePart = (part: Part): PartSummary => {
  const { measures } = part;
  const changes = measures.flatMap(measure => measure.changes);
  return {
    id: part.id,
    name: part.name,
    transposed: part.transposed,
    keys: distinct([measures[0]?.key, ...changes.map(change => change.key)]),
    times: distinct([measures[0]?.time, ...changes.map(change => change.time)]),
    voices: summariseVoices(part),
    chordSymbols: measures.reduce((sum, measure) => sum + measure.chordSymbols.length, 0),
    leftOut: part.leftOut ?? [],
  };
};

/** Without repetitions, in order of first appearance. */
const distinct = <T extends object>(values: readonly (T | undefined)[]): readonly T[] =>
  groupBy(
    values.filter(value => value !== undefined),
    value => JSON.stringify(value),
  ).map(([first]) => first);

const summariseVoices = (part: Part): readonly VoiceSummary[] =>
  groupBy(
    part.measures.flatMap(({ voices }) => voices),
    ({ id }) => id,
  ).map(voices => summariseVoice(part, voices));

const summariseVoice = (part: Part, voices: Group<Voice>): VoiceSummary => {
  const [{ id, staff }] = voices;
  const notes = voices.flatMap(voice => voice.events).flatMap(asNote);
  const played = notes.filter(note => !note.cue);
  const pitches = played
    .flatMap(note => note.heads.map(head => head.pitch))
    .sort((a, b) => midi(a) - midi(b));
  const faults = (part.faults ?? []).filter(fault => fault.voice === id);
  return {
    id,
    staff,
    notes: played.reduce(
      (sum, note) => sum + note.heads.filter(head => head.tieFrom === undefined).length,
      0,
    ),
    chords: played.filter(note => note.heads.length > 1).length,
    cueNotes: notes.length - played.length,
    range: pitches.length === 0 ? undefined : { lowest: pitches[0]!, highest: pitches[pitches.length - 1]! },
    verses: [...new Set(played.flatMap(note => note.lyrics.map(lyric => lyric.verse)))],
    faults: [...new Set(faults.map(fault => fault.diagnostic.code))],
  };
};

const asNote = (event: MusicEvent) => (event.kind === 'note' ? [event] : []);
