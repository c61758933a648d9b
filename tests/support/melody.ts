/** Builds small tunes for tests: quarter notes by name, or notes with lengths and slurs. */
import { Note } from 'tonal';
import type { Barline, MusicEvent, Slur } from '../../src/score/model.ts';
import type { Pitch, Step } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';

export const DIVISION = 12;

const SOURCE = { line: 1, part: 'P1', measure: '1' };
const BARLINE: Barline = { style: 'regular', repeat: false, times: 2, ending: undefined };

export const pitchOf = (name: string): Pitch => {
  const note = Note.get(name);
  if (note.empty) throw new Error(`no note: ${name}`);
  return { step: note.letter as Step, alter: note.alt, octave: note.oct! };
};

export interface MelodyNote {
  /** Undefined is a rest. */
  readonly pitch: Pitch | undefined;
  /** Ticks; 12 make a quarter note. */
  readonly duration: number;
}

/** A tune of one long measure; ids count from 1, heads have the id of their event + 10,000. */
export const tuneOf = (
  notes: readonly MelodyNote[],
  slurs: readonly (readonly [number, number])[] = [],
): Tune => {
  let at = 0;
  const events = notes.map(({ pitch, duration }, index): MusicEvent => {
    const base = { id: index + 1, at, duration, fermata: false, source: SOURCE };
    const value = { base: 4, dots: 0, ratio: undefined };
    at += duration;
    if (!pitch) return { ...base, kind: 'rest', value, wholeMeasure: false };
    const marked = { string: undefined, fret: undefined, finger: undefined };
    const head = { pitch, courtesy: false, tieTo: undefined, tieFrom: undefined, marked, source: SOURCE };
    return {
      ...base,
      kind: 'note',
      value,
      heads: [{ ...head, id: index + 10_001 }],
      grace: undefined,
      cue: false,
      stem: undefined,
      beams: [],
      articulations: [],
      lyrics: [],
    };
  });
  return {
    division: DIVISION,
    rights: [],
    part: 'P1',
    partName: '',
    voice: '1',
    measures: [
      {
        index: 0,
        number: '1',
        implicit: false,
        at: 0,
        length: at,
        key: { fifths: 0, mode: undefined },
        time: undefined,
        clef: { sign: 'G', line: 2, octaveChange: 0 },
        changes: [],
        events,
        chordSymbols: [],
        directions: [],
        left: BARLINE,
        right: BARLINE,
        breakBefore: undefined,
        source: SOURCE,
      },
    ],
    slurs: slurs.map(([from, to]): Slur => ({ from, to, placement: undefined })),
    tuplets: [],
  };
};

/** "C4 D4 r E4": quarter notes and rests. */
export const quarters = (names: string): Tune =>
  tuneOf(
    names.split(' ').map(name => ({ pitch: name === 'r' ? undefined : pitchOf(name), duration: DIVISION })),
  );
