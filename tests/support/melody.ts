/** Builds small tunes for tests: quarter notes by name, notes with lengths and slurs, measures of chords. */
import { Note } from 'tonal';
import { NO_SIGNATURE, TREBLE_CLEF } from '../../src/score/model/attributes.ts';
import { PLAIN_BARLINE } from '../../src/score/model/barline.ts';
import { type Head, type Marked, type MusicEvent, UNMARKED } from '../../src/score/model/event.ts';
import type { Slur } from '../../src/score/model.ts';
import { midi, type Pitch, type Step } from '../../src/score/pitch.ts';
import type { Tune, TuneMeasure } from '../../src/score/tune.ts';

export const DIVISION = 12;

export const pitchOf = (name: string): Pitch => {
  const note = Note.get(name);
  if (note.empty) throw new Error(`no note: ${name}`);
  return { step: note.letter as Step, alter: note.alt, octave: note.oct! };
};

/** A pitch for a MIDI number, black keys written with sharps. */
export const sharpened = (sound: number): Pitch => {
  const names = ['C', 'C', 'D', 'D', 'E', 'F', 'F', 'G', 'G', 'A', 'A', 'B'] as const;
  const step = names[sound % 12]!;
  const octave = Math.floor(sound / 12) - 1;
  return { step, alter: sound - midi({ step, alter: 0, octave }), octave };
};

export interface MelodyNote {
  /** Undefined is a rest. */
  readonly pitch: Pitch | undefined;
  /** Ticks; 12 make a quarter note. */
  readonly duration: number;
}

/** A note or a chord, pitches from the lowest up; none is a rest. */
export interface ChordEvent {
  readonly pitches: readonly Pitch[];
  readonly duration: number;
  /** What is marked for each pitch. */
  readonly marked?: readonly (Marked | undefined)[];
  /** Tied on from the event before, which must have the same pitches. */
  readonly tied?: boolean;
}

export interface MeasureOf {
  readonly number: string;
  readonly events: readonly ChordEvent[];
}

/**
 * A tune of measures. Event ids count from 1; heads have the id of their event + 10,000 × (1 + index in
 * the chord). Slurs join event ids.
 */
export const tuneOfMeasures = (
  measures: readonly MeasureOf[],
  slurs: readonly (readonly [number, number])[] = [],
): Tune => {
  let at = 0;
  let id = 0;
  const made = measures.map(({ number, events }, index): TuneMeasure => {
    const source = { line: 1, part: 'P1', measure: number };
    const start = at;
    const written = events.map(event => {
      const here = at - start;
      at += event.duration;
      id++;
      return eventOf(event, id, here, source);
    });
    return {
      index,
      number,
      implicit: false,
      at: start,
      length: at - start,
      key: NO_SIGNATURE,
      time: undefined,
      clef: TREBLE_CLEF,
      changes: [],
      events: written,
      chordSymbols: [],
      directions: [],
      left: PLAIN_BARLINE,
      right: PLAIN_BARLINE,
      breakBefore: undefined,
      source,
    };
  });
  return {
    division: DIVISION,
    rights: [],
    part: 'P1',
    partName: '',
    voice: '1',
    measures: made,
    slurs: slurs.map(([from, to]): Slur => ({ from, to, placement: undefined })),
    tuplets: [],
  };
};

const eventOf = (
  { pitches, duration, marked, tied }: ChordEvent,
  id: number,
  at: number,
  source: Head['source'],
): MusicEvent => {
  const base = { id, at, duration, fermata: false, source };
  const value = { base: 4, dots: 0, ratio: undefined };
  if (pitches.length === 0) return { ...base, kind: 'rest', value, wholeMeasure: false };
  return {
    ...base,
    kind: 'note',
    value,
    heads: pitches.map((pitch, n) => ({
      id: id + 10_000 * (n + 1),
      pitch,
      courtesy: false,
      tieTo: undefined,
      tieFrom: tied ? id - 1 + 10_000 * (n + 1) : undefined,
      marked: marked?.[n] ?? UNMARKED,
      source,
    })),
    grace: duration === 0 ? 'slashed' : undefined,
    cue: false,
    stem: undefined,
    beams: [],
    articulations: [],
    lyrics: [],
  };
};

/** A tune of one long measure; ids count from 1, heads have the id of their event + 10,000. */
export const tuneOf = (
  notes: readonly MelodyNote[],
  slurs: readonly (readonly [number, number])[] = [],
): Tune => tuneOfMeasures([{ number: '1', events: notes.map(eventFor) }], slurs);

const eventFor = ({ pitch, duration }: MelodyNote): ChordEvent => ({
  pitches: pitch ? [pitch] : [],
  duration,
});

/** "C4 D4 r E4": quarter notes and rests; "C4+E4" is a chord, lowest note first. */
const quarterEvents = (names: string): readonly ChordEvent[] =>
  names.split(' ').map(name => ({
    pitches: name === 'r' ? [] : name.split('+').map(pitchOf),
    duration: DIVISION,
  }));

/** One measure of quarter notes. */
export const quarters = (names: string): Tune => bars(names);

/** Measures of quarter notes, numbered from 1. */
export const bars = (...measures: readonly string[]): Tune =>
  tuneOfMeasures(measures.map((names, n) => ({ number: `${n + 1}`, events: quarterEvents(names) })));
