/**
 * Looks over string, fret and fingering numbers that are in a file, wherever they come from: does every
 * place sound its note, lie in the window, stay under a tie, and can the hand hold it?
 */

import type { FretWindow } from '../fingering/arrangement.ts';
import { gripsFor } from '../fingering/candidates.ts';
import type { Demand } from '../fingering/demand.ts';
import { type Hand, handOn } from '../fingering/hand.ts';
import { type Rules, windowsIn } from '../fingering/rules.ts';
import { beatAt } from '../fingering/strikes.ts';
import type { Instrument, Place } from '../instrument/instrument.ts';
import { placeName, placesOf, soundAt, topFret } from '../instrument/places.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Head, NoteEvent } from '../score/model/event.ts';
import { measureName } from '../score/moments.ts';
import { midi, pitchName } from '../score/pitch.ts';
import type { Tune, TuneMeasure } from '../score/tune.ts';
import { soundName } from './check/names.ts';

/** What looking over a file came to. */
export interface Checked {
  /** Struck notes, those of a chord one by one. */
  readonly notes: number;
  /** How many of them have a string and a fret. */
  readonly marked: number;
  /** All errors; none where everything is in order. */
  readonly faults: readonly Diagnostic[];
}

/** What the checks go by. */
interface Context {
  readonly tune: Tune;
  readonly hand: Hand;
  readonly rules: Rules;
  /** The windows in force, measure by measure. */
  readonly windows: readonly (FretWindow | undefined)[];
  /** By head id, for ties. */
  readonly heads: ReadonlyMap<number, Head>;
  /** By sound, the first note that is marked where it sounds so. */
  readonly first: ReadonlyMap<number, Spot>;
}

/** A head in its measure. */
interface Spot {
  readonly head: Head;
  readonly event: NoteEvent;
  readonly measure: TuneMeasure;
}

type Fault = Pick<Diagnostic, 'code' | 'message' | 'hint'>;

/** Checks the marks of a tune for an instrument, by the rules' window, open strings, and one place a pitch. */
export const checkMarks = (tune: Tune, instrument: Instrument, rules: Rules): Checked => {
  const spots = tune.measures.flatMap(measure =>
    measure.events.flatMap(event =>
      event.kind === 'note' ? event.heads.map((head): Spot => ({ head, event, measure })) : [],
    ),
  );
  const struck = spots.filter(({ head }) => head.tieFrom === undefined);
  const marked = struck.filter(({ head }) => markedPlace(head) !== undefined);
  const counts = { notes: struck.length, marked: marked.length };
  if (marked.length === 0) return { ...counts, faults: [NOTHING_MARKED] };
  const context: Context = {
    tune,
    hand: handOn(instrument, rules.hand),
    rules,
    windows: windowsIn(
      rules,
      tune.measures.map(({ number }) => number),
    ),
    heads: new Map(spots.map(({ head }) => [head.id, head])),
    first: new Map(
      marked
        .filter(spot => isRight(instrument, spot))
        .reverse()
        .map(spot => [midi(spot.head.pitch), spot]),
    ),
  };
  const faults = tune.measures.flatMap(measure =>
    measure.events.flatMap(event => (event.kind === 'note' ? eventFaults(context, event, measure) : [])),
  );
  return { ...counts, faults };
};

const NOTHING_MARKED: Diagnostic = {
  severity: 'error',
  code: 'no-places-marked',
  message: 'no note has a string and a fret',
  hint: 'mark them in the file, or name the part or voice that has them with --part or --voice',
};

const markedPlace = ({ marked: { string, fret } }: Head): Place | undefined =>
  string === undefined || fret === undefined ? undefined : { string, fret };

const eventFaults = (context: Context, event: NoteEvent, measure: TuneMeasure): readonly Diagnostic[] => {
  const faults = event.heads.flatMap(head =>
    head.tieFrom === undefined ? headFaults(context, { head, event, measure }) : tieFaults(context, head),
  );
  const all = faults.length === 0 ? gripFaults(context, event) : faults;
  const place = { ...event.source, beat: beatAt(context.tune, measure, event.at) };
  return all.map(fault => ({ severity: 'error', ...fault, place }));
};

/** What is wrong with the place of a struck note; where it is none that sounds the note, that alone. */
const headFaults = (context: Context, spot: Spot): readonly Fault[] => {
  const { head } = spot;
  const { instrument } = context.hand;
  const name = pitchName(head.pitch);
  const place = markedPlace(head);
  if (!place)
    return [
      {
        code: 'place-missing',
        message: `${name} has no ${lacking(head)}`,
        hint: whereItLies(instrument, head),
      },
    ];
  if (!isOnNeck(instrument, place)) {
    return [
      {
        code: 'place-off-the-neck',
        message: `${name} is marked ${placeName(place)}, which ${instrument.name} does not have`,
        hint: whereItLies(instrument, head),
      },
    ];
  }
  const sound = soundAt(instrument, place);
  if (sound !== midi(head.pitch)) {
    return [
      {
        code: 'place-sounds-another-note',
        message: `${name} is marked ${placeName(place)}, where ${soundName(sound, head.pitch)} sounds`,
        hint: whereItLies(instrument, head),
      },
    ];
  }
  return [...windowFaults(context, spot, place), ...sameFaults(context, spot, place)];
};

const isOnNeck = (instrument: Instrument, { string, fret }: Place): boolean =>
  string <= instrument.strings.length && fret <= topFret(instrument);

/** Whether a note is marked where it sounds. */
const isRight = (instrument: Instrument, { head }: Spot): boolean => {
  const place = markedPlace(head);
  return (
    place !== undefined && isOnNeck(instrument, place) && soundAt(instrument, place) === midi(head.pitch)
  );
};

const lacking = ({ marked: { string, fret } }: Head): string =>
  string === undefined ? (fret === undefined ? 'string and no fret' : 'string') : 'fret';

const whereItLies = (instrument: Instrument, { pitch }: Head): string => {
  const places = placesOf(instrument, midi(pitch));
  return places.length === 0
    ? `${instrument.name} does not have ${pitchName(pitch)}: check the file for another with --instrument`
    : `${pitchName(pitch)} lies on ${places.map(placeName).join(', ')}`;
};

/** An open string is at home in no window above the nut: it may rescue, be free, or never sound. */
const windowFaults = (
  { hand, rules, windows }: Context,
  { head, measure }: Spot,
  place: Place,
): readonly Fault[] => {
  const window = windows[measure.index];
  const { fret } = place;
  const name = pitchName(head.pitch);
  if (fret === 0 && rules.open === 'never') {
    return [
      {
        code: 'place-outside-window',
        message: `${name} is on ${placeName(place)}, and open strings are not to sound`,
        hint: whereItLies(hand.instrument, head),
      },
    ];
  }
  if (!window || (fret >= window.low && fret <= window.high)) return [];
  const better = placesOf(hand.instrument, midi(head.pitch)).filter(
    each => each.fret >= window.low && each.fret <= window.high,
  );
  if (fret === 0 && (rules.open === 'free' || better.length === 0)) return [];
  return [
    {
      code: 'place-outside-window',
      message: `${name} is on ${placeName(place)}, outside frets ${window.low}-${window.high}`,
      hint:
        better.length > 0
          ? `inside it lies on ${better.map(placeName).join(', ')}`
          : 'it has no place inside: widen the window',
    },
  ];
};

/** With one place a pitch, the first place holds for the whole tune. */
const sameFaults = ({ rules, first }: Context, { head }: Spot, place: Place): readonly Fault[] => {
  const before = rules.onePlace ? first.get(midi(head.pitch)) : undefined;
  const there = before && markedPlace(before.head);
  if (!there || (there.string === place.string && there.fret === place.fret)) return [];
  return [
    {
      code: 'place-not-the-same',
      message: `${pitchName(head.pitch)} is on ${placeName(place)}, and was on ${placeName(there)} in ${measureName(before.event.source.measure)}`,
      hint: 'mark it at the same place, or leave out --one-place',
    },
  ];
};

/** A note that is held on keeps its place and its finger, if it has any marks at all. */
const tieFaults = ({ heads }: Context, head: Head): readonly Fault[] => {
  const from = head.tieFrom === undefined ? undefined : heads.get(head.tieFrom);
  const changed = (['string', 'fret', 'finger'] as const).filter(what => {
    const [a, b] = [from?.marked[what], head.marked[what]];
    return a !== undefined && b !== undefined && a !== b;
  });
  if (!from || changed.length === 0) return [];
  const was = changed.map(what => `${what} ${from.marked[what]}`).join(' ');
  const is = changed.map(what => `${what} ${head.marked[what]}`).join(' ');
  return [
    {
      code: 'place-changes-under-tie',
      message: `${pitchName(head.pitch)} is held over from ${was}, and marked ${is}`,
      hint: 'a tied note is not struck again: leave its marks out',
    },
  ];
};

/** Whether the hand can hold what is struck, with the fingers that are marked. */
const gripFaults = ({ hand }: Context, event: NoteEvent): readonly Fault[] => {
  const heads = event.heads.filter(head => head.tieFrom === undefined);
  if (heads.length === 0) return [];
  const names = heads.map(head => pitchName(head.pitch)).join(' ');
  if (new Set(heads.map(head => head.marked.string)).size < heads.length) {
    return [
      {
        code: 'string-used-twice',
        message: `${names} are to sound at once on one string`,
        hint: 'mark each on a string of its own',
      },
    ];
  }
  const demand: Demand = {
    sounds: heads.map(head => midi(head.pitch)),
    window: undefined,
    fixed: heads.map(head => head.marked),
    targets: heads.map(() => undefined),
  };
  if (gripsFor(hand, demand, { open: 'free', outside: 'nearest' }, [1]).length > 0) return [];
  const marks = heads.map(({ marked: { string, fret, finger } }) =>
    [placeName({ string: string!, fret: fret! }), finger !== undefined && `finger ${finger}`]
      .filter(Boolean)
      .join(' '),
  );
  return [
    {
      code: 'place-out-of-reach',
      message: `the hand cannot hold ${names} on ${marks.join(', ')}`,
      hint: 'change the fingers or the places, or give the size of the hand with --hand',
    },
  ];
};
