/**
 * Pitch: a spelled, sounding note. Middle C is C4 = MIDI 60 (MIDI 1.0 numbering with the octave
 * numbers of MusicXML, where an octave starts at C).
 */

export type Step = 'C' | 'D' | 'E' | 'F' | 'G' | 'A' | 'B';

/** A spelled pitch: F♯4 and G♭4 are two. */
export interface Pitch {
  readonly step: Step;
  /** Semitones by which the step is raised; −2 … 2 in ordinary notation. */
  readonly alter: number;
  /** Octave number; octave 4 starts at middle C. */
  readonly octave: number;
}

/** The steps of an octave, upwards; their index counts staff positions. */
export const STEPS: readonly Step[] = ['C', 'D', 'E', 'F', 'G', 'A', 'B'];

/** The step of a letter, small or capital; undefined for any other. */
export const stepNamed = (letter: string): Step | undefined =>
  STEPS.find(step => step === letter.toUpperCase());

const SEMITONES: Readonly<Record<Step, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** The MIDI number of a pitch: semitones above C−1. */
export const midi = (pitch: Pitch): number => 12 * (pitch.octave + 1) + SEMITONES[pitch.step] + pitch.alter;

/** Diatonic steps above C0; two pitches one staff position apart differ by 1. */
export const staffStep = (pitch: Pitch): number => 7 * pitch.octave + STEPS.indexOf(pitch.step);

/** The name a musician reads, with Unicode accidentals: `F♯4`; `octave: false` leaves the number out. */
export const pitchName = (pitch: Pitch, octave = true): string =>
  `${pitch.step}${accidentalSign(pitch.alter)}${octave ? pitch.octave : ''}`;

/** The name as it is typed, in seven-bit characters: `F#4`, `Bb3`; without a number where there is no octave. */
export const typedName = ({
  step,
  alter,
  octave,
}: Pick<Pitch, 'step' | 'alter'> & { readonly octave?: number }): string =>
  `${step}${(alter < 0 ? 'b' : '#').repeat(Math.abs(alter))}${octave ?? ''}`;

/** The accidental signs for an alteration, as Unicode; empty for a natural. */
export const accidentalSign = (alter: number): string =>
  alter === 2 ? '𝄪' : alter > 0 ? '♯'.repeat(alter) : '♭'.repeat(-alter);
