/** From a tune to the notes that the left hand has to find: tied notes joined, time made plain. */

import type { Source } from '../score/diagnostic.ts';
import type { Ticks } from '../score/model/duration.ts';
import type { Marked, NoteEvent } from '../score/model/event.ts';
import { midi, type Pitch } from '../score/pitch.ts';
import type { Tune, TuneMeasure } from '../score/tune.ts';
import type { Timing } from './time.ts';

/** One note, or the notes of a chord, struck at one moment. */
export interface Strike {
  /** Ids of the heads struck, and their pitches, from the lowest up. */
  readonly heads: readonly number[];
  readonly pitches: readonly Pitch[];
  /** MIDI numbers of the pitches. */
  readonly sounds: readonly number[];
  /** What the file marks for each of them. */
  readonly marked: readonly Marked[];
  /** Ticks from the start of the tune, and sounding length with all that is tied on. */
  readonly at: Ticks;
  readonly duration: Ticks;
  /** Lies under one slur with the strike before. */
  readonly slurred: boolean;
  /** Index of the measure in the tune. */
  readonly measure: number;
  /** In beats of the time signature's lower number, 1-based. */
  readonly beat: number;
  readonly source: Source;
}

/** All strikes of a tune, and which heads are held over instead of struck. */
export interface Strikes {
  readonly strikes: readonly Strike[];
  /** For every tied-to head, the head that was struck. */
  readonly struckBy: ReadonlyMap<number, number>;
}

/** Collects the strikes of a tune in the order in which they are read. */
export const strikesOf = (tune: Tune): Strikes => {
  const strikes: { -readonly [K in keyof Strike]: Strike[K] }[] = [];
  const strikeOfHead = new Map<number, number>();
  const struckBy = new Map<number, number>();
  const slurred = slurTest(tune);
  let before: NoteEvent | undefined;
  for (const measure of tune.measures) {
    for (const event of measure.events) {
      if (event.kind !== 'note') continue;
      const at = measure.at + event.at;
      const held = event.heads.filter(head => head.tieFrom !== undefined && strikeOfHead.has(head.tieFrom));
      for (const head of held) {
        const index = strikeOfHead.get(head.tieFrom!)!;
        strikeOfHead.set(head.id, index);
        struckBy.set(head.id, struckBy.get(head.tieFrom!) ?? head.tieFrom!);
        strikes[index]!.duration = Math.max(
          strikes[index]!.duration,
          at + event.duration - strikes[index]!.at,
        );
      }
      const struck = event.heads.filter(head => !held.includes(head));
      if (struck.length > 0) {
        for (const head of struck) strikeOfHead.set(head.id, strikes.length);
        strikes.push({
          heads: struck.map(head => head.id),
          pitches: struck.map(head => head.pitch),
          sounds: struck.map(head => midi(head.pitch)),
          marked: struck.map(head => head.marked),
          at,
          duration: event.duration,
          slurred: before !== undefined && slurred(before.id, event.id),
          measure: measure.index,
          beat: beatAt(tune, measure, event.at),
          source: event.source,
        });
      }
      before = event;
    }
  }
  return { strikes, struckBy };
};

/** Beats of the time signature's lower number (quarters without one) from the measure's start, 1-based. */
export const beatAt = (tune: Tune, measure: TuneMeasure, at: Ticks): number => {
  const beatType = measure.time?.kind === 'metred' ? (measure.time.fractions[0]?.beatType ?? 4) : 4;
  return 1 + (at * beatType) / (4 * tune.division);
};

/**
 * Whether two events lie under one slur. Event ids ascend through a tune, and it is asked in their order:
 * of the slurs that have begun, the one that reaches farthest decides.
 */
const slurTest = (tune: Tune) => {
  const slurs = [...tune.slurs].sort((a, b) => a.from - b.from);
  let begun = 0;
  let reach = -Infinity;
  return (from: number, to: number): boolean => {
    for (; begun < slurs.length && slurs[begun]!.from <= from; begun++) {
      reach = Math.max(reach, slurs[begun]!.to);
    }
    return reach >= to;
  };
};

/** How long a strike sounds before the next, and the silence between them, in quarter notes. */
export const timingBefore = (division: Ticks, from: Strike, to: Strike): Timing => {
  const between = Math.max(0, to.at - from.at);
  const sounding = Math.min(from.duration, between);
  return { sounding: sounding / division, silence: (between - sounding) / division };
};
