/** Lessons for tests: what was made, written the way check values are written. */

import type { Arrangement, Placement } from '../../src/fingering/arrangement.ts';
import { arrangeEditions } from '../../src/fingering/editions.ts';
import { rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { type KnownPlaces, knownPlaces, type LessonAsked } from '../../src/lesson/places.ts';
import type { Head, NoteEvent } from '../../src/score/model/event.ts';
import { pitchName } from '../../src/score/pitch.ts';
import type { Tune } from '../../src/score/tune.ts';

export const lessonFor = (
  ids: readonly string[],
  frets: readonly [number, number] | undefined,
  known: readonly KnownPlaces[] = [],
): LessonAsked => ({
  instruments: ids.map(id => findInstrument(id)),
  rules: rulesFrom(frets ? { windows: wholeTune(...frets) } : {}),
  match: false,
  known,
});

/** A lesson that goes by a tune. */
export const lessonBy = (tune: Tune, ids: readonly string[], frets: readonly [number, number]) => {
  const lesson = lessonFor(ids, frets);
  const { editions } = arrangeEditions(tune, { ...lesson, transpose: 0 });
  const arrangements = editions.map(edition => edition.arrangement);
  return { ...lesson, arrangements, known: arrangements.map(each => knownPlaces(tune, each)) };
};

export const notesOf = (tune: Tune): readonly NoteEvent[] =>
  tune.measures.flatMap(measure => measure.events.filter(event => event.kind === 'note'));

/** Heads that are struck, in order. */
export const struckHeads = (tune: Tune): readonly Head[] =>
  notesOf(tune).flatMap(note => note.heads.filter(head => head.tieFrom === undefined));

/** "C4 D4 E♭4" */
export const names = (tune: Tune): string =>
  struckHeads(tune)
    .map(head => pitchName(head.pitch))
    .join(' ');

export const placementsOf = (tune: Tune, { placements }: Arrangement): readonly Placement[] =>
  struckHeads(tune).map(head => placements.get(head.id)!);
