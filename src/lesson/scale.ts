/** The warm-up: a scale or arpeggio as a tune, the same for all editions, and where the hand shifts. */
import type { Arranged } from '../fingering/arrange.ts';
import type { Arrangement } from '../fingering/arrangement.ts';
import { beatAt } from '../fingering/strikes.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { pitchName } from '../score/pitch.ts';
import type { Tune } from '../score/tune.ts';
import { compose, type Tone } from './compose.ts';
import { arrangeIn, knownPlaces, type LessonAsked, withoutFingers } from './places.ts';
import type { ScaleNotes } from './scale/notes.ts';
import { type Direction, orderOf, PATTERNS, type PatternName } from './scale/pattern.ts';
import { type RangeAsked, type ScaleRange, scaleRange } from './scale/range.ts';

export interface ScaleAsked extends RangeAsked {
  readonly scale: ScaleNotes;
  readonly direction: Direction;
  readonly pattern: PatternName;
}

/** Twelve ticks a quarter note, as many as any pattern needs. */
const DIVISION = 12;
const MEASURE = 4 * DIVISION;

export interface MadeScale {
  readonly tune: Tune;
  /** In the order of the lesson's instruments; diagnostics say where the hand shifts. */
  readonly editions: readonly Arranged[];
}

/**
 * The scale for all editions of a lesson: in the places that its tune uses, extended to those that it
 * does not use. Each edition is fingered once upwards; the way down and steps both ways keep places and
 * fingers, figures keep places. Throws a Refusal where the instruments have no room for the scale.
 */
export const makeScale = (asked: ScaleAsked, lesson: LessonAsked): MadeScale => {
  const range = scaleRange(asked.scale, lesson, asked);
  const ascent = scaleTune({ ...asked, direction: 'up', pattern: 'steps' }, range);
  const upwards = fingered(ascent, lesson);
  const known = upwards.map(({ arrangement }) => {
    const places = knownPlaces(ascent, arrangement);
    return asked.pattern === 'steps' ? places : withoutFingers(places);
  });
  const tune = scaleTune(asked, range);
  const editions = arrangeIn(tune, { ...lesson, known }).map((edition, index) => ({
    ...edition,
    diagnostics: [...upwards[index]!.diagnostics, ...shiftNotes(tune, edition.arrangement)],
  }));
  return { tune, editions };
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

/** The scale as a tune in 4/4. */
const scaleTune = (asked: ScaleAsked, { degrees, start }: ScaleRange): Tune => {
  const pattern = PATTERNS[asked.pattern];
  const order = orderOf(degrees.length, start, asked.direction, pattern);
  const unit = pattern.unit * DIVISION;
  const perMeasure = MEASURE / unit;
  const measures = Array.from({ length: Math.ceil(order.length / perMeasure) }, (_, measure) =>
    order
      .slice(measure * perMeasure, (measure + 1) * perMeasure)
      .map((index): Tone => ({ pitch: degrees[index]!.pitch, ticks: unit })),
  );
  return compose({
    title: titleOf(asked),
    key: asked.scale.key,
    time: { kind: 'metred', fractions: [{ beats: [4], beatType: 4 }], symbol: 'fraction' },
    division: DIVISION,
    length: MEASURE,
    measures: measures.map((tones, index) => (index === measures.length - 1 ? held(tones) : tones)),
  });
};

const titleOf = ({ scale, pattern }: ScaleAsked): string => {
  const words = PATTERNS[pattern].words[scale.kind];
  const name = `${scale.name} ${scale.kind}`;
  return words === '' ? name : `${name} ${words}`;
};

/** The last note is held to the end of the measure, where a note value is that long and starts on a beat. */
const held = (tones: readonly Tone[]): readonly Tone[] => {
  const before = tones.slice(0, -1).reduce((sum, { ticks }) => sum + ticks, 0);
  const last = tones.at(-1)!;
  return before % DIVISION === 0 ? [...tones.slice(0, -1), { ...last, ticks: MEASURE - before }] : tones;
};

/** A note for each change of position: on which note, and where to. */
const shiftNotes = (tune: Tune, { placements }: Arrangement): readonly Diagnostic[] => {
  const notes: Diagnostic[] = [];
  let position: number | undefined;
  for (const measure of tune.measures) {
    for (const event of measure.events) {
      if (event.kind === 'rest') continue;
      const [head] = event.heads;
      const here = placements.get(head!.id)!;
      if (here.fret === 0) continue;
      if (position !== undefined && here.position !== position) {
        notes.push({
          severity: 'note',
          code: 'hand-shifts',
          message: `at ${pitchName(head!.pitch)} the index finger moves from fret ${position} to fret ${here.position}`,
          place: { measure: measure.number, beat: beatAt(tune, measure, event.at) },
        });
      }
      position = here.position;
    }
  }
  return notes;
};
