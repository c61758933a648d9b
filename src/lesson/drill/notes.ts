/** The notes that a drill may use: those of a scale that every edition has inside its window, or its tune. */

import type { FretWindow } from '../../fingering/arrangement.ts';
import type { Place } from '../../instrument/instrument.ts';
import { placeName, placesOf, soundAt, topFret } from '../../instrument/places.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { counted } from '../../score/numbers.ts';
import { midi, type Pitch, pitchName } from '../../score/pitch.ts';
import type { LessonAsked } from '../places.ts';
import { type Degree, degreesBetween, type ScaleNotes } from '../scale/notes.ts';

/** Whether a MIDI number can be played inside the window, or where the tune goes, in every edition. */
export const insideTest = (
  { instruments, rules, known = [] }: LessonAsked,
  window: FretWindow | undefined,
): ((sound: number) => boolean) => {
  const inWindow = ({ fret }: Place): boolean =>
    window !== undefined && fret >= window.low && fret <= window.high && (fret > 0 || rules.open !== 'never');
  return sound =>
    instruments.every((instrument, index) => {
      if (window) return placesOf(instrument, sound).some(inWindow);
      return known[index]?.has(sound) ?? false;
    });
};

/** The notes of the scale inside. Throws a Refusal where they do not make a melody. */
export const drillDegrees = (scale: ScaleNotes, inside: (sound: number) => boolean): readonly Degree[] => {
  const degrees = degreesBetween(scale, 0, 127).filter(({ sound }) => inside(sound));
  if (degrees.length >= 3 && degrees.some(each => each.isTonic)) return degrees;
  throw new Refusal({
    severity: 'error',
    code: 'too-few-notes',
    message:
      degrees.length < 3
        ? `${scale.name} has ${degrees.length === 0 ? 'no notes' : counted(degrees.length, 'note')} in these places: too few for a melody`
        : `${scale.name} has no tonic in these places to begin and end on`,
    hint: 'widen the window, or take another key with --key',
  });
};

/** A place, or a pitch by its name, to be played more often. */
export type Focus = Place | { readonly sound: number; readonly name: string };

/**
 * MIDI numbers of what is focused on; a place counts on the first instrument. Throws a Refusal for what
 * the drill does not have, or plays elsewhere.
 */
export const focusSounds = (
  focus: readonly Focus[],
  window: FretWindow | undefined,
  lesson: LessonAsked,
  degrees: readonly Degree[],
): ReadonlySet<number> => {
  const notes = degrees.map(({ pitch }) => pitchName(pitch)).join(' ');
  const sounds = focus.map(each => {
    const isPitch = 'sound' in each;
    const sound = isPitch ? each.sound : placeSound(each, window, lesson);
    if (sound !== undefined && degrees.some(degree => degree.sound === sound)) return sound;
    throw new Refusal({
      severity: 'error',
      code: 'focus-outside',
      message: `${isPitch ? each.name : placeName(each)} is no place of this drill`,
      hint: `its notes are ${notes}; places lie inside the window, where the tune has them`,
    });
  });
  return new Set(sounds);
};

/** What sounds at a place; undefined where it lies outside the window, or the tune plays that elsewhere. */
const placeSound = (
  place: Place,
  window: FretWindow | undefined,
  { instruments, known = [] }: LessonAsked,
): number | undefined => {
  const { string, fret } = place;
  const [instrument] = instruments;
  if (!instrument!.strings[string - 1] || fret > topFret(instrument!)) return undefined;
  if (window && (fret < window.low || fret > window.high)) return undefined;
  const sound = soundAt(instrument!, place);
  const inTune = known[0]?.get(sound);
  return inTune && (inTune.string !== string || inTune.fret !== fret) ? undefined : sound;
};

/** A pitch raised or lowered by a semitone; undefined where it would need a double accidental. */
export const inflected = (pitch: Pitch, by: 1 | -1): Pitch | undefined => {
  const alter = pitch.alter + by;
  return Math.abs(alter) > 1 ? undefined : { ...pitch, alter };
};

/** Semitones from one pitch up to another. */
export const semitones = (from: Pitch, to: Pitch): number => midi(to) - midi(from);
