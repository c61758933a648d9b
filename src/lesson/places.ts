/**
 * The one assignment of places of a lesson: where a tune's arrangement plays each pitch, and how scale
 * and drill are held to it. A pitch that the tune, or a region of it, plays in several places has the one
 * it plays most often there; of equal ones, that on the lower string number, then the lower fret.
 */
import { type Arranged, arrange } from '../fingering/arrange.ts';
import type { Arrangement, Finger, FretWindow, Placement, WindowRule } from '../fingering/arrangement.ts';
import type { Targets } from '../fingering/demand.ts';
import type { Rules } from '../fingering/rules.ts';
import type { Instrument, Place } from '../instrument/instrument.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import { type Group, groupBy, groupsBy } from '../score/groups.ts';
import type { Head, MusicEvent } from '../score/model/event.ts';
import { midi } from '../score/pitch.ts';
import type { Tune } from '../score/tune.ts';

interface KnownPlace extends Place {
  /** Where the tune always takes the same one there. */
  readonly finger: Finger | undefined;
  readonly fit: Placement['fit'];
}

/** By MIDI number. */
export type KnownPlaces = ReadonlyMap<number, KnownPlace>;

/** The same places, to be stopped by any finger. */
export const withoutFingers = (known: KnownPlaces): KnownPlaces =>
  new Map([...known].map(([sound, place]) => [sound, { ...place, finger: undefined }]));

/** The place of each pitch in a tune as it is arranged. */
export const knownPlaces = (tune: Tune, { placements }: Arrangement): KnownPlaces => {
  const uses = headsOf(tune).flatMap(head => {
    const placement = head.tieFrom === undefined ? placements.get(head.id) : undefined;
    return placement ? [{ sound: midi(head.pitch), placement }] : [];
  });
  return new Map(
    [...groupsBy(uses, ({ sound }) => sound)].map(([sound, all]) => [
      sound,
      mostUsed(all.map(({ placement }) => placement)),
    ]),
  );
};

const mostUsed = (all: readonly Placement[]): KnownPlace => {
  const byPlace = groupBy(all, ({ string, fret }) => `${string}:${fret}`);
  const order = (a: Group<Placement>, b: Group<Placement>): number =>
    b.length - a.length || a[0].string - b[0].string || a[0].fret - b[0].fret;
  const most = byPlace.reduce((best, each) => (order(each, best) < 0 ? each : best));
  const [{ string, fret, fit, finger }] = most;
  const always = most.every(each => each.finger === finger);
  return { string, fret, fit, finger: always ? finger : undefined };
};

const headsOf = (tune: Tune): readonly Head[] =>
  tune.measures.flatMap(({ events }) => events.flatMap(event => (event.kind === 'note' ? event.heads : [])));

/** A window, and where each edition plays each pitch while it is in force. */
export interface Region {
  readonly window: FretWindow | undefined;
  /** For each instrument; empty where there is no tune to go by. */
  readonly known: readonly KnownPlaces[];
}

/** A part of what a lesson made, from the measure of that index on, and what it goes by. */
export interface Section extends Region {
  readonly from: number;
}

/**
 * Arranges what a lesson made itself for all instruments: in the known places of each edition, one place
 * for every other pitch. With `match` later editions play as many of those where the first one does.
 * Throws a Refusal where a note has no place.
 */
export const arrangeIn = (
  tune: Tune,
  asked: LessonAsked,
  sections: readonly Section[] = [{ from: 0, window: wholeWindow(asked.rules), known: asked.known ?? [] }],
): readonly Arranged[] => {
  const rules = { ...asked.rules, windows: windowRules(tune, sections), onePlace: sections.length === 1 };
  const editions: Arranged[] = [];
  asked.instruments.forEach((instrument, index) => {
    const targets = asked.match ? editions[0]?.arrangement.placements : undefined;
    const known = knownBy(tune, sections, index);
    editions.push(arrangeOne(tune, instrument, rules, known, targets));
  });
  return editions;
};

/** What a lesson makes has measures of its own, numbered from 1, whatever windows its tune has by measure. */
const windowRules = ({ measures }: Tune, sections: readonly Section[]): readonly WindowRule[] =>
  sections.flatMap(({ from, window }, index) => {
    const to = sections[index + 1]?.from ?? measures.length;
    return window ? [{ measures: sections.length > 1 ? { from: from + 1, to } : undefined, window }] : [];
  });

/** Where a head of what a lesson made lies, if that is known. */
type Known = (head: Head) => KnownPlace | undefined;

const knownBy = (tune: Tune, sections: readonly Section[], edition: number): Known => {
  const places = new Map(
    tune.measures.flatMap(({ index, events }) => {
      const known = sections.findLast(({ from }) => from <= index)?.known[edition];
      return events.flatMap(event =>
        event.kind === 'note'
          ? event.heads.map(({ id, pitch }) => [id, known?.get(midi(pitch))] as const)
          : [],
      );
    }),
  );
  return ({ id }) => places.get(id);
};

/** For whom a lesson makes music, and by which rules. */
export interface LessonAsked {
  readonly instruments: readonly Instrument[];
  readonly rules: Rules;
  readonly match: boolean;
  /** For each instrument; empty where there is no tune to go by. */
  readonly known?: readonly KnownPlaces[];
  /** One for each window of the tune, in the order in which they come; empty where there is no tune. */
  readonly regions?: readonly Region[];
}

const arrangeOne = (
  tune: Tune,
  instrument: Instrument,
  rules: Rules,
  known: Known,
  targets: Targets | undefined,
): Arranged => {
  const unknown = new Set(headsOf(tune).flatMap(head => (known(head) ? [] : [midi(head.pitch)])));
  const pins = rules.pins.filter(pin => pin.kind === 'pitch' && unknown.has(pin.sound));
  const marked = withMarks(tune, known);
  const arranged = arrange(marked, instrument, { ...rules, pins, keepMarked: true }, targets);
  return {
    ...arranged,
    arrangement: withKnownFit(tune, arranged.arrangement, known),
    diagnostics: arranged.diagnostics.map(withoutFile),
  };
};

/** What a lesson makes has measures, but stands in no file. */
export const withoutFile = ({ place, ...diagnostic }: Diagnostic): Diagnostic => {
  const { measure, beat } = place ?? {};
  return {
    ...diagnostic,
    place: { ...(measure !== undefined && { measure }), ...(beat !== undefined && { beat }) },
  };
};

const withMarks = (tune: Tune, known: Known): Tune => ({
  ...tune,
  measures: tune.measures.map(measure => ({
    ...measure,
    events: measure.events.map((event): MusicEvent => {
      if (event.kind === 'rest') return event;
      const heads = event.heads.map(head => {
        const place = known(head);
        return place
          ? { ...head, marked: { string: place.string, fret: place.fret, finger: place.finger } }
          : head;
      });
      return { ...event, heads };
    }),
  })),
});

/** A place that lies outside the window in the tune does so here too. */
const withKnownFit = (tune: Tune, arrangement: Arrangement, known: Known): Arrangement => {
  const placements = new Map(arrangement.placements);
  for (const head of headsOf(tune)) {
    const place = known(head);
    if (place) placements.set(head.id, { ...placements.get(head.id)!, fit: place.fit });
  }
  return { ...arrangement, placements };
};

/** The window of rules that may hold several: from the lowest fret to the highest of them. */
export const wholeWindow = ({ windows }: Rules): FretWindow | undefined =>
  windows.length === 0
    ? undefined
    : {
        low: Math.min(...windows.map(({ window }) => window.low)),
        high: Math.max(...windows.map(({ window }) => window.high)),
      };
