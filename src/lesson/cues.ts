/**
 * A tune as a teacher says it while playing, as data: phrase by phrase and measure by measure, each note
 * with its place, its finger, and what the hand does to get there. What has been said is not said again:
 * phrases and measures that come back the same, and with the same places, refer to where they were.
 */
import type { Arrangement, Finger, Placement } from '../fingering/arrangement.ts';
import { beatAt } from '../fingering/strikes.ts';
import { type Group, groupBy } from '../score/groups.ts';
import { isPickupNumber } from '../score/moments.ts';
import type { Pitch } from '../score/pitch.ts';
import type { Tune, TuneMeasure } from '../score/tune.ts';
import { phrasesOf, type Sung } from './cues/phrases.ts';
import { type CueSigns, NO_SIGNS, signsBeside } from './cues/signs.ts';

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
  /** Played just before the beat that it leads to. */
  readonly grace: boolean;
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
  readonly signs: CueSigns;
  /** The measure that a repeat goes back to, as printed; undefined for a pickup, and where there is no repeat. */
  readonly backTo: string | undefined;
}

/** Measures that belong together. */
export interface CuePhrase {
  readonly measures: readonly CueMeasure[];
  /** The first and the last measure of an earlier phrase that is the same. */
  readonly as: { readonly from: string | undefined; readonly to: string | undefined } | undefined;
  /** The fret under the index finger when it is first needed; undefined where all strings are open. */
  readonly position: number | undefined;
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
  const sung = phrasesOf(tune, every);
  const signs = signsBeside(tune, [...new Set(sung.flat().map(({ measure }) => measure.index))]);
  const phrases = sung.map((notes): CuePhrase => {
    const spoken = groupBy(notes, ({ measure }) => measure).map(part => ({
      part,
      ...speak(tune, arrangement, part, hand),
      signs: signsOf(part, signs),
    }));
    const measures = spoken.map(({ part, notes, key, whole, signs }): CueMeasure => {
      const number = numberOf(part[0].measure);
      const as = whole ? saidMeasures.get(key) : undefined;
      if (whole && as === undefined && number !== undefined) saidMeasures.set(key, number);
      const target = signs.back && tune.measures[signs.back.to]!;
      return { number, as, notes, signs, backTo: target && numberOf(target) };
    });
    const key = spoken
      .map((each, index) => `${each.key} ${JSON.stringify(signsInside(each.signs, index, spoken.length))}`)
      .join('|');
    const as = said.get(key);
    if (as === undefined) said.set(key, { from: measures[0]!.number, to: measures.at(-1)!.number });
    return {
      measures,
      as,
      position: spoken.flatMap(each => each.notes).find(({ placement }) => placement.fret > 0)?.placement
        .position,
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
        grace: event.grace !== undefined,
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
  const sameFinger = last && last.fret > 0 && last.string === to.string && last.finger === to.finger;
  // A finger that stays where it is slides nowhere, though the hand moves behind it.
  return sameFinger && last.fret !== to.fret
    ? { kind: 'slide', finger: to.finger, from: last.fret, to: to.fret }
    : { kind: 'shift', from: position, to: to.position };
};

/** The signs of a measure, as far as this part of it has its first notes or its last. */
const signsOf = (part: Group<Sung>, all: ReadonlyMap<number, CueSigns>): CueSigns => {
  const [{ measure, event: first }] = part;
  const notes = measure.events.filter(event => event.kind === 'note');
  const { ending, segno, coda, back, jumps } = all.get(measure.index)!;
  return {
    ...NO_SIGNS,
    ...(first === notes[0] && { ending, segno, coda }),
    ...(part.at(-1)!.event === notes.at(-1) && { back, jumps }),
  };
};

/** Those between the notes of a phrase: what stands at its edges is said anyway. */
const signsInside = (signs: CueSigns, index: number, count: number): CueSigns => {
  const { ending, segno, coda, back, jumps } = signs;
  return {
    ...NO_SIGNS,
    ...(index > 0 && { ending, segno, coda }),
    ...(index < count - 1 && { back, jumps }),
  };
};
