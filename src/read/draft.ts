/** What the reader knows of a part while it walks through it. Local to src/read: nothing of it leaves. */

import { type Diagnostic, Refusal, type Source } from '../score/diagnostic.ts';
import type { AttributeChange, Clef, Key, TimeSignature } from '../score/model/attributes.ts';
import type { Barline } from '../score/model/barline.ts';
import type { ChordSymbol } from '../score/model/chord-symbol.ts';
import type { Direction } from '../score/model/direction.ts';
import type { Ticks } from '../score/model/duration.ts';
import type { Articulation, Head, NoteEvent, RestEvent } from '../score/model/event.ts';
import type { LeftOut } from '../score/model.ts';
import type { Interval } from '../score/transpose.ts';
import type { RawMeasure } from './parts.ts';
import type { XmlElement } from './xml/element.ts';

type Draft<T> = { -readonly [K in keyof T]: T[K] };

/** A head whose ties are still to be found. */
export type DraftHead = Draft<Head>;
/** A note to which more may still belong: heads of its chord, articulations. */
export type DraftNote = Omit<Draft<NoteEvent>, 'heads' | 'articulations'> & {
  heads: DraftHead[];
  readonly articulations: Articulation[];
};
/** A rest. */
export type DraftRest = Draft<RestEvent>;
/** A note or a rest, not yet finished. */
export type DraftEvent = DraftNote | DraftRest;

/** An event with what decides its voice. */
export interface Placed {
  readonly event: DraftEvent;
  readonly voice: string;
  readonly staff: number;
  /** Whether it is a whole-measure rest: the file says so, or it may turn out to be. */
  readonly fills: 'asked' | 'maybe' | 'no';
}

/** The end of a slur or tuplet, as the file marks it on a note. */
export interface SpanMark {
  readonly type: 'start' | 'stop';
  readonly number: string;
  readonly voice: string;
  readonly event: number;
  readonly node: XmlElement;
  readonly source: Source;
}

/** Something that cannot be played, in an event whose voice is not yet settled. */
interface DraftFault {
  readonly event: number;
  readonly diagnostic: Diagnostic;
}

/** What the file says of ties at a head. */
export interface TieMark {
  readonly head: DraftHead;
  readonly start: boolean;
  readonly stop: boolean;
}

/** A head whose accidental is printed; `asked` where the file says that it is a courtesy. */
interface PrintedAccidental {
  readonly head: DraftHead;
  readonly asked: boolean;
}

/** A measure as far as it has been read. */
export interface DraftMeasure {
  readonly raw: RawMeasure;
  readonly source: Source;
  /** In force at the start; written by attributes at tick 0. */
  key: Key;
  time: TimeSignature | undefined;
  clef: Clef;
  readonly changes: AttributeChange[];
  readonly placed: Placed[];
  readonly printed: PrintedAccidental[];
  readonly chordSymbols: ChordSymbol[];
  readonly directions: Direction[];
  left: Barline;
  right: Barline;
  breakBefore: 'system' | 'page' | undefined;
  /** Where the last `<forward>` ends. */
  gapEnd: Ticks;
}

/** Ids in document order, over the whole score. */
export class Ids {
  private last = 0;

  next(): number {
    this.last += 1;
    return this.last;
  }
}

/** Counts what is left out, by kind, in the order in which the kinds appear. */
export class Omissions {
  private readonly byKind = new Map<string, { what: string; count: number; first: Source; event: number }>();

  /** Counts one; of what several heads of a chord, an event of that id, have alike, only the first. */
  add(what: string, first: Source, event = 0): void {
    const known = this.byKind.get(what);
    if (known === undefined) this.byKind.set(what, { what, count: 1, first, event });
    else if (event === 0 || known.event !== event) {
      known.count += 1;
      known.event = event;
    }
  }

  list(): readonly LeftOut[] {
    return [...this.byKind.values()].map(({ what, count, first }) => ({ what, count, first }));
  }
}

/** The walk through one part: what is in force, and what has been collected. */
export interface Walk {
  readonly division: Ticks;
  readonly part: string;
  readonly ids: Ids;
  readonly omissions: Omissions;
  readonly faults: DraftFault[];
  readonly slurs: SpanMark[];
  readonly tuplets: SpanMark[];
  readonly ties: TieMark[];
  readonly measures: DraftMeasure[];
  /** In force, 1 until the part says so; and whether it has. */
  divisions: number;
  isDivided: boolean;
  /** In force: the sounding key, and the key as the part writes it. */
  key: Key;
  writtenKey: Key;
  time: TimeSignature | undefined;
  clef: Clef;
  /** The first transposition of the first staff, in semitones. */
  transposed: number | undefined;
  /** From written to sounding pitch by staff; staff 0 stands for all. */
  readonly transpositions: Map<number, Interval>;
  /** The measure being read: the last. */
  readonly measure: DraftMeasure;
  /** The time in it. */
  now: Ticks;
  /** Where the last note that is not part of a chord began, and what it became. */
  chordAt: Ticks;
  chord: Placed | undefined;
  /** Whether a repeat starts with the measure that comes next. */
  repeatsNext: boolean;
}

/** Where an element stands, as events carry it. */
export const sourceOf = (walk: Walk, node: XmlElement): Source => ({
  line: node.line,
  part: walk.part,
  measure: walk.measure.raw.number,
});

/** A refusal for something in the measure being read. */
export const refuseAt = (
  walk: Walk,
  node: XmlElement,
  fault: Pick<Diagnostic, 'code' | 'message' | 'hint'>,
): Refusal => new Refusal({ severity: 'error', ...fault, place: sourceOf(walk, node) });
