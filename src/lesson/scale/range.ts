/** Which notes of a scale are played: those that the window holds, from a tonic on. */

import type { FretWindow } from '../../fingering/arrangement.ts';
import type { Instrument } from '../../instrument/instrument.ts';
import { placesOf, soundRange } from '../../instrument/places.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { counted } from '../../score/numbers.ts';
import type { LessonAsked } from '../places.ts';
import { type Degree, degreesBetween, type ScaleNotes } from './notes.ts';

/** How far a scale is to go. */
export interface RangeAsked {
  /** Frets; undefined for the whole neck. */
  readonly window: FretWindow | undefined;
  /** Undefined: as far as the window, or the tune, goes; one octave where there is neither. */
  readonly octaves: number | undefined;
}

/** How far a scale goes, on all instruments of the lesson. */
export interface ScaleRange {
  /** From the lowest note to the highest. */
  readonly degrees: readonly Degree[];
  /** Index of the tonic to start on; notes below it are those that the tune has there. */
  readonly start: number;
}

/**
 * The range that all editions share. Throws a Refusal where the octaves are not there.
 *
 * By a tune: from its lowest note as far up as tune and window go, starting on the lowest tonic that the
 * tune has, or else the window. Otherwise from the tonic whose octave (or octaves) has most notes inside,
 * over all editions, the lowest of equal ones; without a number of octaves as far up as the window goes.
 */
export const scaleRange = (
  scale: ScaleNotes,
  { instruments, known = [] }: Pick<LessonAsked, 'instruments' | 'known'>,
  asked: RangeAsked,
): ScaleRange => {
  const editions = instruments.map((instrument, index) => ({
    instrument,
    used: new Set(known[index]?.keys()),
  }));
  const all = playable(scale, editions);
  const inside = all.map(
    ({ sound }) => editions.filter(edition => isInside(edition, sound, asked.window)).length,
  );
  const used = all.map(({ sound }) => editions.some(edition => edition.used.has(sound)));
  const byTune = asked.octaves === undefined ? rangeByTune(all, inside, used) : undefined;
  return byTune ?? rangeByOctaves(all, inside, asked) ?? refuseOctaves(scale, asked.octaves ?? 1, editions);
};

const rangeByTune = (
  all: readonly Degree[],
  inside: readonly number[],
  used: readonly boolean[],
): ScaleRange | undefined => {
  const lowest = used.indexOf(true);
  const tonicWhere = (test: (index: number) => boolean): number =>
    all.findIndex(({ isTonic }, index) => isTonic && test(index));
  const own = tonicWhere(index => used[index]!);
  const start = own >= 0 ? own : tonicWhere(index => inside[index]! > 0);
  if (lowest < 0 || start < 0) return undefined;
  const from = Math.min(lowest, start);
  const to = reach(inside, Math.max(used.lastIndexOf(true), start));
  return { degrees: all.slice(from, to + 1), start: start - from };
};

const rangeByOctaves = (
  all: readonly Degree[],
  inside: readonly number[],
  { octaves, window }: RangeAsked,
): ScaleRange | undefined => {
  const span = 12 * (octaves ?? 1);
  const starts = all.flatMap(({ isTonic, sound }, start) => {
    const end = all.findIndex(each => each.sound === sound + span);
    if (!isTonic || end < 0) return [];
    const count = inside.slice(start, end + 1).reduce((sum, each) => sum + each, 0);
    return [{ start, end, count }];
  });
  const [first] = starts;
  if (!first) return undefined;
  const { start, end } = starts.reduce((a, b) => (b.count > a.count ? b : a), first);
  const to = octaves === undefined && window ? reach(inside, end) : end;
  return { degrees: all.slice(start, to + 1), start: 0 };
};

/** The last index after `index` up to which all is inside. */
const reach = (inside: readonly number[], index: number): number => {
  let to = index;
  while ((inside[to + 1] ?? 0) > 0) to += 1;
  return to;
};

/** An edition: its instrument, and the MIDI numbers that the tune has. */
interface Edition {
  readonly instrument: Instrument;
  readonly used: ReadonlySet<number>;
}

/** What every edition can sound. */
const playable = (scale: ScaleNotes, editions: readonly Edition[]): readonly Degree[] => {
  const ranges = editions.map(({ instrument }) => soundRange(instrument));
  const low = Math.max(...ranges.map(range => range.low));
  const high = Math.min(...ranges.map(range => range.high));
  return degreesBetween(scale, low, high).filter(({ sound }) =>
    editions.every(({ instrument }) => placesOf(instrument, sound).length > 0),
  );
};

/** With a window, what it holds or the tune has; without one, what lies between the tune's outer notes. */
const isInside = ({ instrument, used }: Edition, sound: number, window: RangeAsked['window']): boolean => {
  if (used.has(sound)) return true;
  if (window)
    return placesOf(instrument, sound).some(({ fret }) => fret >= window.low && fret <= window.high);
  return used.size === 0 || (sound >= Math.min(...used) && sound <= Math.max(...used));
};

const refuseOctaves = ({ name }: ScaleNotes, octaves: number, editions: readonly Edition[]): never => {
  const names = editions.map(({ instrument }) => instrument.name).join(' and ');
  throw new Refusal({
    severity: 'error',
    code: 'no-room-for-octaves',
    message: `${names} ${editions.length > 1 ? 'do' : 'does'} not have ${counted(octaves, 'octave')} of ${name}`,
    hint: octaves > 1 ? 'ask for fewer with --octaves' : 'take another tonic',
  });
};
