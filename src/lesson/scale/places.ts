/** Where a scale lies: the places that scale, drill and neck map of a lesson have in common. */

import type { Arranged } from '../../fingering/arrange.ts';
import type { Place } from '../../instrument/instrument.ts';
import { soundAt, topFret } from '../../instrument/places.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { NO_SIGNATURE } from '../../score/model/attributes.ts';
import { midi, type Pitch } from '../../score/pitch.ts';
import type { Tune } from '../../score/tune.ts';
import {
  arrangeIn,
  type KnownPlaces,
  knownPlaces,
  type LessonAsked,
  wholeWindow,
  withoutFingers,
} from '../places.ts';
import { lessonIn, regionsOf } from '../regions.ts';
import type { ScaleNotes } from './notes.ts';
import { type ScaleRange, scaleRange } from './range.ts';
import { inEqualNotes, scaleTune } from './writing.ts';

/**
 * Where a lesson plays each of some pitches: where its tune plays them, or its scale as `makeScale` has
 * it, or else the best places beside those. `named` places, on the first instrument, are taken where
 * the tune has none for their pitch.
 */
export const placesInWindow = (
  scale: ScaleNotes,
  lesson: LessonAsked,
  pitches: readonly Pitch[],
  named: readonly Place[] = [],
): readonly KnownPlaces[] => {
  const chosen = lesson.instruments.map((instrument, index) => {
    const places = named
      .filter(({ string, fret }) => instrument.strings[string - 1] && fret <= topFret(instrument))
      .map(
        place =>
          [soundAt(instrument, place), { ...place, finger: undefined, fit: 'inside' as const }] as const,
      );
    return new Map([...places, ...(lesson.known?.[index] ?? [])]);
  });
  const asked = { ...lesson, known: chosen };
  const inScale = scalePlaces(scale, lesson);
  const known = chosen.map((places, index) => new Map([...(inScale[index] ?? []), ...places]));
  const ascending = [...new Map(pitches.map(pitch => [midi(pitch), pitch])).entries()].sort(
    ([a], [b]) => a - b,
  );
  const run = ascending.map(([, pitch]) => pitch);
  const { tune } = inEqualNotes('', NO_SIGNATURE, [run]);
  return arrangeIn(tune, { ...asked, known: known.map(withoutFingers) }).map(({ arrangement }) =>
    knownPlaces(tune, arrangement),
  );
};

/**
 * The places of the scale as far as window and tune go, those of the first window that has a pitch; only the
 * tune's where there is no such scale.
 */
const scalePlaces = (scale: ScaleNotes, lesson: LessonAsked): readonly KnownPlaces[] => {
  try {
    const ascents = regionsOf(lesson).map(region => ascentIn(scale, undefined, lessonIn(lesson, region)));
    return lesson.instruments.map(
      (_, index) => new Map(ascents.toReversed().flatMap(({ places }) => [...places[index]!])),
    );
  } catch (error) {
    if (error instanceof Refusal) return lesson.known ?? [];
    throw error;
  }
};

/** A scale upwards in steps, as it is fingered. */
export interface Ascent {
  readonly range: ScaleRange;
  /** In the order of the lesson's instruments. */
  readonly editions: readonly Arranged[];
  readonly places: readonly KnownPlaces[];
}

/** The scale upwards in the one window of a lesson. Throws a Refusal where there is no room for it. */
export const ascentIn = (scale: ScaleNotes, octaves: number | undefined, lesson: LessonAsked): Ascent => {
  const range = scaleRange(scale, lesson, { window: wholeWindow(lesson.rules), octaves });
  const { tune } = scaleTune({ scale, direction: 'up', pattern: 'steps' }, [range]);
  const editions = fingered(tune, lesson);
  return { range, editions, places: editions.map(({ arrangement }) => knownPlaces(tune, arrangement)) };
};

/**
 * In the tune's places; with the tune's fingers too, unless one of them had to stop two notes in a row that
 * need not: what is natural in a tune may not be so in a scale.
 */
const fingered = (ascent: Tune, lesson: LessonAsked): readonly Arranged[] => {
  const free = arrangeIn(ascent, { ...lesson, known: lesson.known?.map(withoutFingers) ?? [] });
  if (!lesson.known?.length) return free;
  return arrangeIn(ascent, lesson).map((edition, index) =>
    hops(ascent, edition) <= hops(ascent, free[index]!) ? edition : free[index]!,
  );
};

/** How often a finger stops two notes in a row. */
const hops = (tune: Tune, { arrangement: { placements } }: Arranged): number => {
  const fingers = tune.measures.flatMap(({ events }) =>
    events.flatMap(event => (event.kind === 'note' ? [placements.get(event.heads[0]!.id)!.finger] : [])),
  );
  return fingers.filter((finger, index) => finger > 0 && finger === fingers[index - 1]).length;
};
