/** Which notes of a measure need an accidental by the rules (common practice, Gould 2011, ch. 3, from memory). */
import type { AttributeChange, Key } from './model/attributes.ts';
import type { MusicEvent } from './model/event.ts';
import { type Pitch, type Step, staffStep } from './pitch.ts';

/** The order in which sharps enter a key signature; flats enter backwards. */
const SHARPS: readonly Step[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** What a key signature does to a step: −1, 0 or 1 semitones. */
export const keyAlter = (key: Key, step: Step): number => {
  const order = SHARPS.indexOf(step);
  if (key.fifths > order) return 1;
  return -key.fifths > 6 - order ? -1 : 0;
};

/**
 * Ids of the heads that need an accidental: those that differ from the key signature, or from the last
 * accidental on the same line or space in the measure. A tied-to head needs none and sets none.
 */
export const neededAccidentals = (
  events: readonly MusicEvent[],
  key: Key,
  changes: readonly AttributeChange[],
): ReadonlySet<number> => {
  const needed = new Set<number>();
  const inForce = new Map<number, number>();
  const keys = changes.filter(change => change.key !== undefined);
  let current = key;
  for (const event of events) {
    while (keys.length > 0 && keys[0]!.at <= event.at) {
      current = keys.shift()!.key!;
      inForce.clear();
    }
    if (event.kind !== 'note') continue;
    for (const { id, pitch, tieFrom } of event.heads) {
      if (tieFrom !== undefined) continue;
      if (pitch.alter !== alterInForce(pitch, current, inForce)) needed.add(id);
      inForce.set(staffStep(pitch), pitch.alter);
    }
  }
  return needed;
};

const alterInForce = (pitch: Pitch, key: Key, inForce: ReadonlyMap<number, number>): number =>
  inForce.get(staffStep(pitch)) ?? keyAlter(key, pitch.step);
