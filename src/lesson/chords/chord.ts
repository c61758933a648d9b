/** A chord: the notes that a chord symbol asks for. */
import { Interval, Note } from 'tonal';
import type { ChordDegree, ChordNote, ChordSymbol } from '../../score/model/chord-symbol.ts';
import { accidentalSign, STEPS } from '../../score/pitch.ts';
import { KINDS } from './kinds.ts';

/** A note of a chord. */
export interface Tone {
  /** 1 for the root, 3 for a third of any size, 13 at most. */
  readonly degree: number;
  /** Above the root, within two octaves. */
  readonly semitones: number;
  readonly note: ChordNote;
}

/** A chord symbol, spelt out. */
export interface Chord {
  readonly symbol: ChordSymbol;
  readonly root: ChordNote;
  /** From the root up, by degree. */
  readonly tones: readonly Tone[];
  /** The note after the slash; it may be a tone of the chord or not. */
  readonly bass: ChordNote | undefined;
}

/** 0 … 11; C is 0. */
export type PitchClass = number;

/** The pitch class of a note. */
export const pitchClass = ({ step, alter }: ChordNote): PitchClass =>
  ((((Note.chroma(step) ?? 0) + alter) % 12) + 12) % 12;

/** "F♯" */
export const noteName = ({ step, alter }: ChordNote): string => `${step}${accidentalSign(alter)}`;

/** The pitch class of a tone. */
export const toneClass = (tone: Tone): PitchClass => pitchClass(tone.note);

/** The chord of a symbol; undefined for "no chord". */
export const chordOf = (symbol: ChordSymbol): Chord | undefined => {
  const { root, bass, kind, degrees } = symbol;
  if (!root) return undefined;
  const intervals = degrees.reduce(applyDegree, intervalsOf(kind));
  return { symbol, root, bass, tones: intervals.map(interval => toneAt(root, interval)) };
};

/** A degree of a chord and how many semitones it lies above the root. */
export interface Size {
  readonly degree: number;
  readonly semitones: number;
}

/** What a kind of chord consists of. */
export const intervalsOf = (kind: string): readonly Size[] =>
  (KINDS[kind] ?? KINDS.other!).intervals.split(' ').map(sizeOf);

/** The size of an interval by its name: `7m`. */
export const sizeOf = (interval: string): Size => {
  const { num, semitones } = Interval.get(interval);
  return { degree: num!, semitones: semitones! };
};

/** Semitones of degrees 1 … 13 of a dominant chord, to which added degrees are related (MusicXML 4.0, degree-alter, from memory). */
const DOMINANT = [0, 0, 2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19, 21] as const;

/** The plain size of a degree, before it is altered. */
export const plainSize = (degree: number): number => DOMINANT[degree] ?? plainSize(degree - 7) + 12;

const applyDegree = (sizes: readonly Size[], { value, alter, type }: ChordDegree): readonly Size[] => {
  const rest = sizes.filter(({ degree }) => degree !== value);
  if (type === 'subtract') return rest;
  const old = sizes.find(({ degree }) => degree === value);
  const base = type === 'alter' && old ? old.semitones : plainSize(value);
  // An added degree stands beside one of the same number: a dominant with both ♭9 and ♯9.
  const kept = type === 'add' ? sizes : rest;
  const size = { degree: value, semitones: base + alter };
  if (kept.some(each => each.degree === value && each.semitones === size.semitones)) return kept;
  return [...kept, size].sort((a, b) => a.degree - b.degree || a.semitones - b.semitones);
};

/** Spelt by its degree: the ♭9 of C is D♭, whatever it sounds like. */
const toneAt = (root: ChordNote, { degree, semitones }: Size): Tone => {
  const step = STEPS[(STEPS.indexOf(root.step) + degree - 1) % 7]!;
  const natural = (Note.chroma(step)! - Note.chroma(root.step)! + 12) % 12;
  const alter = ((semitones - natural + root.alter + 126) % 12) - 6;
  return { degree, semitones, note: { step, alter } };
};
