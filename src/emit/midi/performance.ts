/**
 * What is heard: a tune with its repeats played out, as notes in time. Times are ticks of the tune's
 * division; only grace notes fall between them.
 *
 * Judgements of ours: a staccato note sounds half its length; an accent is a little louder; a grace note
 * takes its time from the note it leads to; a fermata is held no longer than written, so that a student
 * can count on.
 */

import type { Ticks } from '../../score/model/duration.ts';
import type { NoteEvent } from '../../score/model/event.ts';
import { midi } from '../../score/pitch.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';

/** A measure as often as it is played. */
export interface Visit {
  readonly measure: TuneMeasure;
  /** Ticks from the start of the tune, as played. */
  readonly at: Ticks;
}

/** A note as it sounds, in ticks from the start of the track. */
export interface Sounding {
  readonly at: number;
  readonly duration: number;
  /** MIDI number. */
  readonly sound: number;
  /** 1 … 127. */
  readonly velocity: number;
}

/** The measures in the order of playing, each at its time. */
export const visitsOf = (tune: Tune, order: readonly number[]): readonly Visit[] => {
  let at = 0;
  return order.map(index => {
    const measure = tune.measures[index]!;
    const visit = { measure, at };
    at += measure.length;
    return visit;
  });
};

const VELOCITY = { plain: 84, accent: 102, marcato: 112, grace: 70 } as const;

/** A grace note lasts a thirty-second note, if the note it leads to leaves so much. */
const GRACE = 1 / 8;

interface Held {
  at: number;
  duration: number;
  sound: number;
  velocity: number;
}

/** All notes of the tune as played; tied notes are one. */
export const perform = (tune: Tune, visits: readonly Visit[]): readonly Sounding[] => {
  const notes: Held[] = [];
  // A tie holds only where its second note follows at once: not over a jump back.
  let held = new Map<number, Held>();
  for (const { measure, at } of visits) {
    let graces: NoteEvent[] = [];
    for (const event of measure.events) {
      if (event.kind === 'rest') continue;
      if (event.grace) {
        graces.push(event);
        continue;
      }
      const start = at + event.at;
      const short = Math.min(GRACE * tune.division, event.duration / (graces.length + 1));
      notes.push(...graces.flatMap((grace, index) => graceNotes(grace, start + index * short, short)));
      held = strike(event, start, graces.length * short, held, notes);
      graces = [];
    }
  }
  return notes;
};

const graceNotes = ({ heads }: NoteEvent, at: number, duration: number): readonly Held[] =>
  heads.map(({ pitch }) => ({ at, duration, sound: midi(pitch), velocity: VELOCITY.grace }));

/** Strikes a note, or holds it on; answers what may be held on after it. */
const strike = (
  event: NoteEvent,
  start: Ticks,
  late: number,
  before: ReadonlyMap<number, Held>,
  notes: Held[],
): Map<number, Held> => {
  const after = new Map<number, Held>();
  for (const { id, pitch, tieFrom, tieTo } of event.heads) {
    const running = tieFrom === undefined ? undefined : before.get(tieFrom);
    let note: Held;
    if (running && Math.abs(running.at + running.duration - start) < 1e-6) {
      running.duration += event.duration;
      note = running;
    } else {
      const duration = (event.duration - late) * (tieTo === undefined ? gate(event) : 1);
      note = { at: start + late, duration, sound: midi(pitch), velocity: velocityOf(event) };
      notes.push(note);
    }
    if (tieTo !== undefined) after.set(id, note);
  }
  return after;
};

const gate = ({ articulations }: NoteEvent): number =>
  articulations.includes('staccatissimo') ? 0.25 : articulations.includes('staccato') ? 0.5 : 1;

const velocityOf = ({ articulations }: NoteEvent): number =>
  articulations.includes('marcato')
    ? VELOCITY.marcato
    : articulations.includes('accent')
      ? VELOCITY.accent
      : VELOCITY.plain;
