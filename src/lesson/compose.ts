/**
 * A tune out of pitches and lengths: what a lesson makes itself goes the same way as what is read, and
 * every output is at hand for it.
 */

import { type Key, type TimeSignature, TREBLE_CLEF } from '../score/model/attributes.ts';
import { PLAIN_BARLINE } from '../score/model/barline.ts';
import type { NoteValue, Ticks } from '../score/model/duration.ts';
import { type MusicEvent, UNMARKED } from '../score/model/event.ts';
import type { Pitch } from '../score/pitch.ts';
import { exactValue, nearestValue, writtenRests } from '../score/time.ts';
import type { Tune, TuneMeasure } from '../score/tune.ts';

/** A note to be written; lengths that no note value has are the caller's mistake. */
export interface Tone {
  readonly pitch: Pitch;
  readonly ticks: Ticks;
}

/** What is to be written. */
export interface Piece {
  readonly title: string;
  readonly key: Key;
  readonly time: TimeSignature;
  readonly division: Ticks;
  /** Notes of each measure; what they leave of it is silent. */
  readonly measures: readonly (readonly Tone[])[];
  /** Ticks of a measure. */
  readonly length: Ticks;
  /** Indices of measures that begin something new, after a double bar line. */
  readonly sections?: readonly number[];
}

/** The metre of what has none to go by. */
export const FOUR_FOUR: TimeSignature = {
  kind: 'metred',
  fractions: [{ beats: [4], beatType: 4 }],
  symbol: 'fraction',
};

const PART = 'P1';

const FINAL = { ...PLAIN_BARLINE, style: 'final' } as const;
const DOUBLE = { ...PLAIN_BARLINE, style: 'double' } as const;

/** The tune; ids of events and heads ascend from 1. */
export const compose = (piece: Piece): Tune => {
  let id = 0;
  const nextId = (): number => {
    id += 1;
    return id;
  };
  const last = piece.measures.length - 1;
  return {
    title: piece.title,
    rights: [],
    division: piece.division,
    part: PART,
    partName: '',
    voice: '1',
    measures: piece.measures.map((tones, index): TuneMeasure => {
      const number = String(index + 1);
      const source = { line: 1, part: PART, measure: number };
      return {
        index,
        number,
        implicit: false,
        at: index * piece.length,
        length: piece.length,
        key: piece.key,
        time: piece.time,
        clef: TREBLE_CLEF,
        changes: [],
        events: eventsOf(piece, tones, source, nextId),
        chordSymbols: [],
        directions: [],
        left: PLAIN_BARLINE,
        right: index === last ? FINAL : piece.sections?.includes(index + 1) ? DOUBLE : PLAIN_BARLINE,
        breakBefore: undefined,
        source,
      };
    }),
    slurs: [],
    tuplets: [],
  };
};

const eventsOf = (
  { division, length }: Piece,
  tones: readonly Tone[],
  source: MusicEvent['source'],
  nextId: () => number,
): readonly MusicEvent[] => {
  let at = 0;
  const notes = tones.map((tone): MusicEvent => {
    const value = exactValue(tone.ticks, division) ?? nearestValue(tone.ticks, division);
    const event = noteOf(tone, { id: nextId(), head: nextId(), at, value, source });
    at += tone.ticks;
    return event;
  });
  const rests = writtenRests(at, length, division).map(
    (rest): MusicEvent => ({
      id: nextId(),
      kind: 'rest',
      at: rest.at,
      duration: rest.ticks,
      value: rest.value,
      fermata: false,
      wholeMeasure: false,
      source,
    }),
  );
  return [...notes, ...rests];
};

/** What a note has beside its pitch and its length. */
interface Written {
  readonly id: number;
  /** Id of its one head. */
  readonly head: number;
  readonly at: Ticks;
  readonly value: NoteValue;
  readonly source: MusicEvent['source'];
}

const noteOf = ({ pitch, ticks }: Tone, { head, source, ...written }: Written): MusicEvent => ({
  ...written,
  kind: 'note',
  duration: ticks,
  fermata: false,
  heads: [
    { id: head, pitch, courtesy: false, tieTo: undefined, tieFrom: undefined, marked: UNMARKED, source },
  ],
  grace: undefined,
  cue: false,
  stem: undefined,
  beams: [],
  articulations: [],
  lyrics: [],
  source,
});
