/**
 * Accidentals, put where melodies have them (common practice): a lower neighbour raised to a semitone
 * (G F♯ G), an upper one lowered (G A♭ G), and a repeated note inflected on its way to the next whole tone (D D♯ E, E E♭ D).
 */
import type { Pitch } from '../../score/pitch.ts';
import { inflected, semitones } from './notes.ts';
import type { Chance } from './random.ts';

/** The note at `index` inflected, if its neighbours ask for it. */
const inflectionAt = (pitches: readonly Pitch[], index: number): Pitch | undefined => {
  const [before, here, after] = [pitches[index - 1], pitches[index], pitches[index + 1]];
  if (!before || !here || !after) return undefined;
  const coming = semitones(before, here);
  const going = semitones(here, after);
  if (coming === -2 && going === 2) return inflected(here, 1);
  if (coming === 2 && going === -2) return inflected(here, -1);
  if (coming === 0 && going === 2) return inflected(here, 1);
  if (coming === 0 && going === -2) return inflected(here, -1);
  return undefined;
};

/**
 * The melody with some notes inflected, at most every third. `free` says which may be, `playable` which
 * pitches the hand has.
 */
export const withAccidentals = (
  pitches: readonly Pitch[],
  free: (index: number) => boolean,
  playable: (pitch: Pitch) => boolean,
  dice: Chance,
): readonly Pitch[] => {
  const made = [...pitches];
  let last = -EVERY;
  for (let index = 1; index < pitches.length - 1; index++) {
    const inflection = free(index) && index - last >= EVERY ? inflectionAt(pitches, index) : undefined;
    if (!inflection || !playable(inflection) || dice.below(4) === 0) continue;
    made[index] = inflection;
    last = index;
  }
  return made;
};

/** Fewest notes from one accidental to the next. */
const EVERY = 3;
