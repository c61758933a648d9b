/**
 * What the rules of notation make of a tune, before anything is measured: heights on the staff,
 * printed accidentals, beam groups, stem directions.
 */
import type { Arrangement } from '../../fingering/arrangement.ts';
import type { NoteEvent } from '../../score/model.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';
import { type Accidental, accidentals } from './accidentals.ts';
import { type BeamGroup, beamGroups } from './beams.ts';
import { type Reading, readingOf, staffHeight } from './reading.ts';
import { type StemDirection, stemDirections } from './stems.ts';

export interface Notation {
  readonly tune: Tune;
  readonly arrangement: Arrangement;
  readonly reading: Reading;
  /** By head id; heads that show none are missing. */
  readonly accidentals: ReadonlyMap<number, Accidental>;
  /** By event id; notes with flags of their own are missing. */
  readonly beams: ReadonlyMap<number, BeamGroup>;
  /** By event id. */
  readonly directions: ReadonlyMap<number, StemDirection>;
  /** Octaves by which a note is printed lower than it sounds, by event id, where an ottava line says so. */
  readonly ottava: ReadonlyMap<number, number>;
  /** Names of the verses that are sung, in the file's order. */
  readonly verses: readonly string[];
}

/** Heights of an event's heads, lowest pitch first, sp below the top line. */
export const heights = (
  { reading, ottava }: Pick<Notation, 'reading' | 'ottava'>,
  event: NoteEvent,
): number[] => event.heads.map(head => staffHeight(head.pitch, reading, ottava.get(event.id)));

/** Events under ottava lines, with the octaves that the line adds. */
function ottavas({ measures }: Tune): Map<number, number> {
  const found = new Map<number, number>();
  let octaves = 0;
  for (const measure of measures) {
    const marks = measure.directions.filter(each => each.kind === 'octave-shift');
    for (const event of measure.events) {
      for (const mark of marks.filter(each => each.at <= event.at && !each.end)) octaves = mark.octaves;
      // A line stops after the note that it stands over.
      const ended = marks.some(each => each.end && each.at <= event.at);
      if (ended && !marks.some(each => !each.end && each.at > 0 && each.at <= event.at)) octaves = 0;
      if (octaves !== 0) found.set(event.id, octaves);
    }
    if (marks.at(-1)?.end) octaves = 0;
  }
  return found;
}

/** Verses in order of their names as numbers, then of appearance. */
function verseNames(measures: readonly TuneMeasure[]): string[] {
  const names = new Set<string>();
  for (const { events } of measures)
    for (const event of events)
      if (event.kind === 'note') for (const { verse } of event.lyrics) names.add(verse);
  return [...names].sort((a, b) => (Number(a) || 0) - (Number(b) || 0));
}

export function notate(tune: Tune, arrangement: Arrangement): Notation {
  const reading = readingOf(arrangement.instrument.clef);
  const ottava = ottavas(tune);
  const groups = beamGroups(tune);
  const beams = new Map(groups.flatMap(each => each.events.map(event => [event.id, each] as const)));
  const directions = new Map<number, StemDirection>();
  for (const { events } of tune.measures) {
    const here = new Set(events.map(event => event.id));
    const starting = groups.filter(each => here.has(each.events[0]!.id));
    for (const [id, direction] of stemDirections(events, starting, event =>
      heights({ reading, ottava }, event),
    ))
      directions.set(id, direction);
  }
  return {
    tune,
    arrangement,
    reading,
    accidentals: accidentals(tune),
    beams,
    directions,
    ottava,
    verses: verseNames(tune.measures),
  };
}
