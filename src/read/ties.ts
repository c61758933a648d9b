/**
 * Ties: which head is held on from which. A tie joins two heads of one sound, the second beginning where
 * the first ends. One exception: the first note of a second ending may be held from the note before the
 * first ending, which is tied there too; it then has a `tieFrom` that nothing has as its `tieTo`.
 */

import type { Barline } from '../score/model/barline.ts';
import type { Ticks } from '../score/model/duration.ts';
import { midi } from '../score/pitch.ts';
import type { DraftHead, Omissions, TieMark } from './draft.ts';

/** A note event in the time of the whole part. */
export interface Sounding {
  readonly heads: readonly DraftHead[];
  readonly voice: string;
  readonly from: Ticks;
  readonly to: Ticks;
  /** Set for the first moment of a measure that starts with an ending, or after a repeat. */
  readonly afterJump: boolean;
}

interface Held {
  readonly head: DraftHead;
  readonly sounding: Sounding;
  readonly starts: boolean;
}

/** Joins the heads that ties hold together. `soundings` are in order of time. */
export const joinTies = (
  marks: readonly TieMark[],
  soundings: readonly Sounding[],
  omissions: Omissions,
): void => {
  if (marks.length === 0) return;
  const markOf = new Map(marks.map(mark => [mark.head, mark]));
  const bySound = new Map<number, Held[]>();
  const open = new Set<DraftHead>();
  for (const sounding of soundings) {
    for (const head of sounding.heads) {
      const sound = midi(head.pitch);
      const mark = markOf.get(head);
      const held = bySound.get(sound) ?? [];
      if (mark?.stop === true) {
        const from = heldFrom(held, sounding);
        if (from === undefined) {
          omissions.add('ties without a start', head.source);
          head.looseTies = ['stop'];
        } else tie(from.head, head, open);
      }
      if (mark?.start === true) open.add(head);
      held.unshift({ head, sounding, starts: mark?.start === true });
      bySound.set(sound, held.slice(0, REMEMBERED));
    }
  }
  for (const head of open) {
    omissions.add('ties without an end', head.source);
    head.looseTies = [...(head.looseTies ?? []), 'start'];
  }
};

/** More notes of one pitch than ever sound together in a part. */
const REMEMBERED = 8;

const tie = (from: DraftHead, to: DraftHead, open: Set<DraftHead>): void => {
  to.tieFrom = from.id;
  from.tieTo ??= to.id;
  open.delete(from);
};

/** The note that a tie comes from, the latest first: the surest kind of match wins. */
const heldFrom = (held: readonly Held[], to: Sounding): Held | undefined => {
  const meets = (each: Held): boolean => each.sounding.to === to.from && each.sounding !== to;
  const free = (each: Held): boolean => each.starts && each.head.tieTo === undefined && meets(each);
  return (
    held.find(each => free(each) && each.sounding.voice === to.voice) ??
    held.find(free) ??
    held.find(each => to.afterJump && each.starts && each.sounding.to < to.from) ??
    held.find(each => meets(each) && each.sounding.voice === to.voice && each.head.tieTo === undefined)
  );
};

/** Whether music can come to a measure from elsewhere than the measure before. */
export const isJumpTarget = (left: Barline, before: Barline | undefined): boolean =>
  left.ending !== undefined || before?.repeat === true;
