/**
 * What the rules of notation make of a tune, before anything is measured: heights on the staff,
 * printed accidentals, beam groups, stem directions.
 */
import type { Arrangement } from '../../fingering/arrangement.ts';
import type { NoteEvent } from '../../score/model/event.ts';
import type { Tune } from '../../score/tune.ts';
import { verseOpenings } from '../../score/verses.ts';
import type { SheetOptions } from '../options.ts';
import { type Accidental, accidentals } from './accidentals.ts';
import { type BeamGroup, beamGroups } from './beams.ts';
import { condense } from './condense.ts';
import { type HandMarks, handMarks } from './fingers.ts';
import { type Melismas, melismas } from './melismas.ts';
import { ottavas } from './ottava.ts';
import { phraseEnds } from './phrases.ts';
import { type Reading, readingOf, staffHeight } from './reading.ts';
import { type StemDirection, stemDirections } from './stems.ts';

export interface Notation {
  /** With multi-measure rests condensed. */
  readonly tune: Tune;
  /** Lengths of multi-measure rests, by measure index. */
  readonly rests: ReadonlyMap<number, number>;
  /** Each measure's index in the tune as it came. */
  readonly origins: readonly number[];
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
  /** The event under which each verse begins. */
  readonly openings: ReadonlyMap<string, number>;
  readonly melismas: Melismas;
  /** How well each measure may end a system, by index. */
  readonly phraseEnds: readonly number[];
  readonly hand: HandMarks;
  readonly options: SheetOptions;
}

/** Heights of an event's heads, lowest pitch first, sp below the top line. */
export const heights = (
  { reading, ottava }: Pick<Notation, 'reading' | 'ottava'>,
  event: NoteEvent,
): number[] => event.heads.map(head => staffHeight(head.pitch, reading, ottava.get(event.id)));

export function notate(whole: Tune, arrangement: Arrangement, options: SheetOptions): Notation {
  const { tune, rests, origins } = condense(whole);
  const reading = readingOf(arrangement.instrument.clef);
  const ottava = ottavas(tune);
  const groups = beamGroups(tune);
  const beams = new Map(groups.flatMap(each => each.events.map(event => [event.id, each] as const)));
  const openings = verseOpenings(tune.measures);
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
    rests,
    origins,
    arrangement,
    reading,
    accidentals: accidentals(tune),
    beams,
    directions,
    ottava,
    verses: [...openings.keys()],
    openings,
    melismas: melismas(tune),
    phraseEnds: phraseEnds(tune),
    hand: handMarks(tune, arrangement, options),
    options,
  };
}
