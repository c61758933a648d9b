/**
 * A tune as a teacher says it while playing, as data: phrase by phrase and measure by measure, each note
 * with its place, its finger, and what the hand does to get there. What has been said is not said again:
 * phrases and measures that come back the same, and with the same places, refer to where they were.
 */
import type { Arrangement, Finger, Placement } from '../fingering/arrangement.ts';
import { beatAt } from '../fingering/strikes.ts';
import { groupBy } from '../score/groups.ts';
import { isPickupNumber } from '../score/moments.ts';
import type { Pitch } from '../score/pitch.ts';
import type { Tune, TuneMeasure } from '../score/tune.ts';
import { phrasesOf, type Sung } from './cues/phrases.ts';

/** What the hand does on the way to a note. */
export type HandMove =
  /** The index finger comes to lie at a fret. */
  | { readonly kind: 'shift'; readonly from: number; readonly to: number }
  /** A finger stays on its string and goes to another fret, and the hand with it. */
  | { readonly kind: 'slide'; readonly finger: Finger; readonly from: number; readonly to: number };

/** A note in words: when, and where on the neck. */
export interface CueNote {
  /** Of the time signature's lower number, from 1. */
  readonly beat: number;
  readonly pitch: Pitch;
  readonly placement: Placement;
  /** The same place as the note before. */
  readonly again: boolean;
  readonly move: HandMove | undefined;
}

/** The notes of a measure, or the earlier one that they repeat. */
export interface CueMeasure {
  /** As printed; undefined for a pickup. */
  readonly number: string | undefined;
  /** The number of an earlier measure that is the same. */
  readonly as: string | undefined;
  readonly notes: readonly CueNote[];
}

/** Measures that belong together. */
export interface CuePhrase {
  readonly measures: readonly CueMeasure[];
  /** The first and the last measure of an earlier phrase that is the same. */
  readonly as: { readonly from: string | undefined; readonly to: string | undefined } | undefined;
  /** The fret under the index finger when it is first needed; undefined where all strings are open. */
  readonly position: number | undefined;
  /** Numbers of the ending that begins here. */
  readonly ending: readonly number[] | undefined;
  /** The measure that a repeat at the end goes back to; undefined where there is none. */
  readonly backTo: string | undefined;
  /** Words such as "D.C. al Fine" at the end. */
  readonly jumps: readonly string[];
}

/** A tune in words, phrase by phrase. */
export interface Cues {
  readonly tune: Tune;
  readonly arrangement: Arrangement;
  readonly phrases: readonly CuePhrase[];
}

/** The cues of a tune; with `every`, so many measures at a time. */
export const makeCues = (tune: Tune, arrangement: Arrangement, every?: number): Cues => {
  const hand: Hand = { position: undefined, last: undefined };
  const said = new Map<string, CuePhrase['as'] & {}>();
  const saidMeasures = new Map<string, string>();
  const phrases = phrasesOf(tune, every).map((notes): CuePhrase => {
    const spoken = groupBy(notes, ({ measure }) => measure).map(part => ({
      part,
      ...speak(tune, arrangement, part, hand),
    }));
    const measures = spoken.map(({ part, notes, key, whole }): CueMeasure => {
      const number = numberOf(part[0].measure);
      const as = whole ? saidMeasures.get(key) : undefined;
      if (whole && as === undefined && number !== undefined) saidMeasures.set(key, number);
      return { number, as, notes };
    });
    const key = spoken.map(each => each.key).join('|');
    const as = said.get(key);
    if (as === undefined) said.set(key, { from: measures[0]!.number, to: measures.at(-1)!.number });
    return {
      measures,
      as,
      position: spoken.flatMap(each => each.notes).find(({ placement }) => placement.fret > 0)?.placement
        .position,
      ...signsOf(tune, notes),
    };
  });
  return { tune, arrangement, phrases };
};

/** What the hand did last, carried from note to note. */
interface Hand {
  position: number | undefined;
  last: Placement | undefined;
}

/** A pickup is not counted. */
const numberOf = ({ implicit, number }: TuneMeasure): string | undefined =>
  implicit || isPickupNumber(number) ? undefined : number;

/** The struck notes of a part of a measure; `key` is equal where places and rhythm are. */
const speak = (tune: Tune, { placements }: Arrangement, part: readonly Sung[], hand: Hand) => {
  const { measure } = part[0]!;
  const notes = part.flatMap(({ event }) =>
    event.heads.flatMap((head): CueNote[] => {
      const placement = head.tieFrom === undefined ? placements.get(head.id) : undefined;
      if (!placement) return [];
      const note = {
        beat: beatAt(tune, measure, event.at),
        pitch: head.pitch,
        placement,
        again: isSame(hand.last, placement),
        move: moveTo(hand, placement),
      };
      hand.last = placement;
      if (placement.fret > 0) hand.position = placement.position;
      return [note];
    }),
  );
  const whole = part.length === measure.events.filter(event => event.kind === 'note').length;
  const key = part
    .map(({ event }) => {
      const places = event.heads.map(head => {
        const { string, fret, finger } = placements.get(head.id)!;
        return `${string}/${fret}/${finger}/${head.tieFrom === undefined}`;
      });
      return `${event.at},${event.duration},${places.join('+')}`;
    })
    .join(';');
  return { notes, key, whole };
};

const isSame = (a: Placement | undefined, b: Placement): boolean =>
  a !== undefined && a.string === b.string && a.fret === b.fret && a.finger === b.finger;

const moveTo = ({ position, last }: Hand, to: Placement): HandMove | undefined => {
  if (to.fret === 0 || position === undefined || to.position === position) return undefined;
  const guided = last && last.fret > 0 && last.string === to.string && last.finger === to.finger;
  return guided
    ? { kind: 'slide', finger: to.finger, from: last.fret, to: to.fret }
    : { kind: 'shift', from: position, to: to.position };
};

/** Endings, repeats and jumps at the edges of a phrase. */
const signsOf = ({ measures }: Tune, notes: readonly Sung[]) => {
  const first = notes[0]!.measure;
  const last = notes.at(-1)!;
  const endsMeasure = last.measure.events.filter(event => event.kind === 'note').at(-1) === last.event;
  const start = measures.slice(0, last.measure.index + 1).findLast(({ left }) => left.repeat);
  const target = start ?? measures.find(measure => numberOf(measure) !== undefined) ?? measures[0]!;
  return {
    ending:
      notes[0]!.event === first.events.find(event => event.kind === 'note')
        ? first.left.ending?.numbers
        : undefined,
    backTo: endsMeasure && last.measure.right.repeat ? target.number : undefined,
    jumps: endsMeasure
      ? last.measure.directions.flatMap(each => (each.kind === 'jump' ? [each.text] : []))
      : [],
  };
};
