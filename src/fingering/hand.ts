/**
 * The hand: how far its fingers spread, in mm, and at which frets they stand by themselves.
 *
 * Spread. The maxima for each pair of fingers are those of the piano table of Parncutt et al. 1997
 * (relaxed, comfortable and practical spans; recalled from memory), at 13.7 mm to the semitone, with the guitarist's
 * fingers 1–4 taken for the pianist's 2–5. Middle and ring finger spread least, which anthropometry
 * agrees with (Chatzioglou et al. 2024). They are a start, not a measurement of any one hand.
 *
 * Home. One finger a fret is common practice on guitar and ukulele; two frets a finger on the mandolin.
 */
import type { HandSpread, Instrument } from '../instrument/instrument.ts';
import { fretTable } from '../instrument/neck.ts';

/** Offsets in frets from the index finger's fret, both ends included. */
export interface Home {
  readonly low: number;
  readonly high: number;
}

/** Fingers 1–4 at index 0–3. */
const HOMES: Readonly<Record<HandSpread, readonly Home[]>> = {
  'one-fret-a-finger': [
    { low: 0, high: 0 },
    { low: 1, high: 1 },
    { low: 2, high: 2 },
    { low: 3, high: 3 },
  ],
  'two-frets-a-finger': [
    { low: 0, high: 1 },
    { low: 2, high: 3 },
    { low: 4, high: 5 },
    { low: 5, high: 6 },
  ],
};

/** mm, by pair of fingers: [lower][higher]. */
type Spans = Readonly<Record<1 | 2 | 3, Readonly<Partial<Record<2 | 3 | 4, number>>>>>;

const RELAXED: Spans = { 1: { 2: 27, 3: 55, 4: 82 }, 2: { 3: 27, 4: 55 }, 3: { 4: 27 } };
const COMFORTABLE: Spans = { 1: { 2: 41, 3: 69, 4: 110 }, 2: { 3: 27, 4: 69 }, 3: { 4: 41 } };
const PRACTICAL: Spans = { 1: { 2: 69, 3: 96, 4: 137 }, 2: { 3: 55, 4: 96 }, 3: { 4: 69 } };

/**
 * A size, or the comfortable reach from index to little finger in mm. All spans scale with it: medium
 * is the table above; small and large are our judgement.
 */
export type HandSize = 'small' | 'medium' | 'large' | number;

const SCALES = { small: 0.85, medium: 1, large: 1.15 } as const;

/** How many mm past its home a finger may reach before the hand shifts instead: our judgement. */
const REACH_PAST_HOME = 30;

/** A hand on a neck: everything that cost terms ask about lengths. */
export interface Hand {
  readonly instrument: Instrument;
  /** Distance from the nut, mm, of each fret counted from the capo. */
  readonly fretAt: Float64Array;
  readonly homes: readonly Home[];
  /** Largest span between two fingers of a hand at rest, mm, at [5 × a + b] for fingers a, b. */
  readonly relaxed: Float64Array;
  /** Largest span between two fingers that is no effort, mm, laid out the same. */
  readonly comfortable: Float64Array;
  /** Largest span that is possible at all, mm, laid out the same. */
  readonly practical: Float64Array;
  /** How far past its home a finger may reach, mm. */
  readonly reachPastHome: number;
}

const pairTable = (spans: Spans, scale: number): Float64Array => {
  const table = new Float64Array(25);
  for (const a of [1, 2, 3] as const) {
    for (const b of [2, 3, 4] as const) {
      const span = spans[a][b];
      if (span !== undefined) table[5 * a + b] = table[5 * b + a] = span * scale;
    }
  }
  return table;
};

/** The hand on an instrument; frets are measured from the capo on. */
export const handOn = (instrument: Instrument, size: HandSize = 'medium'): Hand => {
  const scale = typeof size === 'number' ? size / COMFORTABLE[1][4]! : SCALES[size];
  return {
    instrument,
    fretAt: fretTable(instrument.scaleLength, instrument.frets).slice(instrument.capo),
    homes: HOMES[instrument.hand],
    relaxed: pairTable(RELAXED, scale),
    comfortable: pairTable(COMFORTABLE, scale),
    practical: pairTable(PRACTICAL, scale),
    reachPastHome: REACH_PAST_HOME * scale,
  };
};

/** mm between two frets along the neck. */
export const span = (hand: Hand, fret: number, other: number): number =>
  Math.abs(hand.fretAt[fret]! - hand.fretAt[other]!);

/**
 * Whether a finger can stop a fret while the index finger rests at `position`: not more than
 * `squeeze` frets nearer than its home, nor farther past it than the hand stretches, and never
 * farther than the two fingers spread at all.
 */
export const canReach = (
  hand: Hand,
  position: number,
  finger: number,
  fret: number,
  squeeze = 1,
): boolean => {
  const home = hand.homes[finger - 1]!;
  const offset = fret - position;
  if (fret < 1 || home.low - offset > squeeze) return false;
  if (finger > 1 && span(hand, position, fret) > hand.practical[5 + finger]!) return false;
  if (offset <= home.high) return finger > 1 || home.low - offset <= 1;
  return finger > 1 && span(hand, position + home.high, fret) <= hand.reachPastHome;
};
