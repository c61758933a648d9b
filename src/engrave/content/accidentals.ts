/**
 * Which accidentals are printed. One holds to the bar line, in its own octave; a tie carries it over.
 * A note that the reader might still take for altered, because its neighbour in the last measure or in
 * another octave is, gets a courtesy accidental in brackets, once.
 */
import { keyAlter } from '../../score/accidentals.ts';
import type { Key } from '../../score/model/attributes.ts';
import type { Head } from '../../score/model/event.ts';
import { pitchName, type Step } from '../../score/pitch.ts';
import type { Tune, TuneMeasure } from '../../score/tune.ts';

export interface Accidental {
  /** Semitones; 0 is a natural. */
  readonly alter: number;
  readonly bracketed: boolean;
}

/** Alterations by step and octave; what a measure ends with reminds the next one. */
type Memory = Map<string, number>;

const slot = (step: Step, octave: number) => `${step}${octave}`;

/** A different alteration of the same step, in any octave, is still in the reader's ear. */
function contradicted(memory: Memory, step: Step, alter: number): boolean {
  for (const [key, value] of memory) if (key.startsWith(step) && value !== alter) return true;
  return false;
}

class MeasureState {
  readonly current: Memory = new Map();
  /** What holds no more, or by a tie alone, but is still in the reader's ear. */
  readonly faded: Memory = new Map();
  readonly before: Memory;
  key: Key;

  constructor(key: Key, before: Memory) {
    this.key = key;
    this.before = before;
  }

  changeTo(key: Key): void {
    this.key = key;
    for (const [here, alter] of this.current) this.faded.set(here, alter);
    this.current.clear();
  }

  /** An accidental that is needed whatever was there. */
  explicit({ pitch: { step, alter, octave } }: Head): Accidental {
    this.current.set(slot(step, octave), alter);
    return { alter, bracketed: false };
  }

  /** The accidental of a head, where the reader sees it carried over by a tie or not. */
  accidental({ pitch: { step, alter, octave }, courtesy }: Head, carried: boolean): Accidental | undefined {
    const here = slot(step, octave);
    const held = this.current.get(here);
    if (carried) {
      // A tie over the bar line brings the alteration along without establishing it.
      if (held === undefined && alter !== keyAlter(this.key, step)) this.faded.set(here, alter);
      return undefined;
    }
    const doubtful =
      held === undefined &&
      [this.before, this.faded, this.current].some(memory => contradicted(memory, step, alter));
    const needed = alter !== (held ?? keyAlter(this.key, step));
    if (needed || doubtful) this.current.set(here, alter);
    if (needed) return { alter, bracketed: false };
    // What was said in this measure is not said again, though a file may ask for it.
    return doubtful || (courtesy && held === undefined) ? { alter, bracketed: true } : undefined;
  }
}

type Heads = ReadonlyMap<number, Head>;

/** Whether a tie carries a head's accidental over: not from another spelling, nor past the ending that stands between. */
function isCarried({ id, tieFrom, pitch }: Head, tied: Heads): boolean {
  if (tieFrom === undefined) return false;
  const from = tied.get(tieFrom);
  return from === undefined || (from.tieTo === id && pitchName(from.pitch) === pitchName(pitch));
}

/** Whether a chord has a step of an octave twice, in two alterations: each then needs its own sign. */
const isDoubled = ({ pitch: { step, alter, octave } }: Head, heads: readonly Head[]): boolean =>
  heads.some(({ pitch }) => pitch.step === step && pitch.octave === octave && pitch.alter !== alter);

function measureAccidentals(
  measure: TuneMeasure,
  before: Memory,
  tied: Heads,
  found: Map<number, Accidental>,
): Memory {
  const state = new MeasureState(measure.key, before);
  const changes = measure.changes.filter(change => change.at > 0 && change.key);
  for (const event of measure.events) {
    while (changes[0] && changes[0].at <= event.at) state.changeTo(changes.shift()!.key!);
    if (event.kind !== 'note') continue;
    for (const head of event.heads) {
      const accidental = isDoubled(head, event.heads)
        ? state.explicit(head)
        : state.accidental(head, isCarried(head, tied));
      if (accidental) found.set(head.id, accidental);
    }
  }
  return new Map([...state.faded, ...state.current]);
}

/** Printed accidentals by head id. */
export function accidentals(tune: Tune): ReadonlyMap<number, Accidental> {
  const found = new Map<number, Accidental>();
  const events = tune.measures.flatMap(measure => measure.events);
  const heads = events.flatMap(event => (event.kind === 'note' ? event.heads : []));
  const tied = new Map(heads.flatMap(head => (head.tieTo === undefined ? [] : [[head.id, head] as const])));
  let before: Memory = new Map();
  for (const measure of tune.measures) before = measureAccidentals(measure, before, tied, found);
  return found;
}
