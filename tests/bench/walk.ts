/** Long melodies, the same in every run. */
import type { Tune } from '../../src/score/tune.ts';
import { type ChordEvent, DIVISION, sharpened, tuneOfMeasures } from '../support/melody.ts';

/** Numbers 0 … 1, the same in every run. */
const random = (seed: number) => (): number => {
  seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
  return seed / 2 ** 32;
};

const MAJOR = [0, 2, 4, 5, 7, 9, 11];

export interface Walk {
  /** Lowest note of the scale, a MIDI number, and the highest degree above it. */
  readonly low: number;
  readonly top: number;
  /** With thirds below some notes. */
  readonly chords?: boolean;
  /** How often the whole walk is played. */
  readonly times?: number;
}

/** A melody that walks up and down a major scale. */
export const walk = (notes: number, { low, top, chords = false, times = 1 }: Walk): Tune => {
  const draw = random(7);
  let step = 7;
  const events = Array.from({ length: notes }, (): ChordEvent => {
    step = Math.min(top, Math.max(chords ? 2 : 0, step + Math.round(4 * draw() - 2)));
    const sound = (degree: number): number => low + 12 * Math.floor(degree / 7) + MAJOR[degree % 7]!;
    const sounds = chords && draw() < 0.3 ? [sound(step - 2), sound(step)] : [sound(step)];
    return { pitches: sounds.map(sharpened), duration: draw() < 0.5 ? DIVISION : DIVISION / 2 };
  });
  const measures = Array.from({ length: Math.ceil(notes / 6) }, (_, n) => ({
    number: `${n + 1}`,
    events: events.slice(6 * n, 6 * n + 6),
  }));
  const all = Array.from({ length: times }, () => measures).flat();
  return tuneOfMeasures(all.map((measure, n) => ({ ...measure, number: `${n + 1}` })));
};
