/** A chord shape: what each string does, and the hand that holds it. */
import type { Finger } from '../../fingering/arrangement.ts';
import type { Grip, Touch } from '../../fingering/grip.ts';
import { type Hand, span } from '../../fingering/hand.ts';
import { openPitches } from '../../instrument/places.ts';
import { type Chord, type Tone, toneClass } from './chord.ts';

/** Frets by string, string 1 first; undefined where the string is silent, 0 where it is open. */
export type Voicing = readonly (number | undefined)[];

/** One finger across strings, from the higher string number (`from`) to the lower. */
export interface Barre {
  readonly finger: Finger;
  readonly fret: number;
  readonly from: number;
  readonly to: number;
}

/** How a chord is held. */
export interface ChordShape {
  readonly frets: Voicing;
  /** Of the sounding strings, by string number; finger 0 on an open string. */
  readonly touches: readonly Touch[];
  /** The fret under the index finger. */
  readonly position: number;
  readonly barres: readonly Barre[];
  /** Tones of the chord that do not sound: a fifth, a root. */
  readonly leftOut: readonly Tone[];
  /** From the lowest stopped fret to the highest, mm. */
  readonly reach: number;
  /** The outermost fingers stand farther apart than is comfortable. */
  readonly stretched: boolean;
  /** By the ordering, thousandths of a point. */
  readonly cost: number;
}

/** MIDI numbers that a voicing sounds, by string number. */
export const soundsOf = (hand: Hand, frets: Voicing): readonly number[] =>
  openPitches(hand.instrument).flatMap((open, index) => {
    const fret = frets[index];
    return fret === undefined ? [] : [open + fret];
  });

/** The tones that a voicing lacks. */
export const lackingTones = (chord: Chord, sounds: readonly number[]): readonly Tone[] =>
  chord.tones.filter(tone => !sounds.some(sound => sound % 12 === toneClass(tone)));

/** Fingers that lie across several strings. */
export const barresOf = (touches: readonly Touch[]): readonly Barre[] =>
  ([1, 2, 3, 4] as const).flatMap(finger => {
    const strings = touches.filter(touch => touch.finger === finger).map(({ string }) => string);
    if (strings.length < 2) return [];
    const { fret } = touches.find(touch => touch.finger === finger)!;
    return [{ finger, fret, from: Math.max(...strings), to: Math.min(...strings) }];
  });

/** Whether no barre crosses a silent string, which it would make sound. */
export const barresSpareSilence = (frets: Voicing, touches: readonly Touch[]): boolean =>
  barresOf(touches).every(({ from, to }) =>
    frets.every((fret, index) => fret !== undefined || index + 1 > from || index + 1 < to),
  );

/** The frets at which a string is stopped. */
export const stoppedFrets = (frets: Voicing): readonly number[] =>
  frets.filter(fret => fret !== undefined).filter(fret => fret > 0);

/** A frame shows as many frets, at least (common practice). */
export const LEAST_SHOWN = 4;

/** Which frets a frame shows: from the nut if the shape lies within the first four, else from its lowest. */
export const shownFrets = ({
  frets,
}: Pick<ChordShape, 'frets'>): { readonly base: number; readonly count: number } => {
  const stopped = stoppedFrets(frets);
  const high = Math.max(1, ...stopped);
  const base = high <= LEAST_SHOWN ? 1 : Math.min(...stopped);
  return { base, count: Math.max(LEAST_SHOWN, high - base + 1) };
};

/** The finished shape. */
export const shapeOf = (
  hand: Hand,
  chord: Chord,
  frets: Voicing,
  { touches, position }: Pick<Grip, 'touches' | 'position'>,
  cost: number,
): ChordShape => {
  const stopped = touches.filter(({ finger }) => finger > 0);
  const low = Math.min(...stopped.map(({ fret }) => fret));
  const high = Math.max(...stopped.map(({ fret }) => fret));
  return {
    frets,
    touches,
    position,
    barres: barresOf(touches),
    leftOut: lackingTones(chord, soundsOf(hand, frets)),
    reach: stopped.length > 0 ? span(hand, low, high) : 0,
    stretched: isStretched(hand, stopped),
    cost,
  };
};

const isStretched = (hand: Hand, stopped: readonly Touch[]): boolean => {
  const fingers = stopped.map(({ finger }) => finger);
  const [first, last] = [Math.min(...fingers), Math.max(...fingers)];
  const fretOf = (finger: number): number => stopped.find(touch => touch.finger === finger)!.fret;
  return first < last && span(hand, fretOf(first), fretOf(last)) > hand.comfortable[5 * first + last]!;
};
