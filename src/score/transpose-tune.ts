/** A tune moved to another key: pitches, keys and chord symbols, with the spelling that the key wants. */

import type { Key } from './model/attributes.ts';
import type { ChordNote, ChordSymbol } from './model/chord-symbol.ts';
import type { Ticks } from './model/duration.ts';
import { type Head, type MusicEvent, UNMARKED } from './model/event.ts';
import { type Interval, intervalInKey, intervalOf, transposeKey, transposePitch } from './transpose.ts';
import type { Tune, TuneMeasure } from './tune.ts';

/** How far a tune is moved: semitones, spelt as its keys want it; or an interval with its own spelling. */
export type Move = number | Interval;

/** The tune moved up (down if negative); ids, rhythm and words stay. */
export const transposeTune = (tune: Tune, move: Move): Tune => {
  const { steps, semitones } = typeof move === 'number' ? intervalOf(move) : move;
  if (semitones === 0 && steps === 0) return tune;
  return {
    ...tune,
    transposition: (tune.transposition ?? 0) + semitones,
    measures: tune.measures.map(measure => transposeMeasure(measure, move)),
  };
};

/**
 * Of semitones, the spelling that leads to the key with fewest accidentals; of two with equally many
 * the usual one.
 */
const spellingIn = (key: Key, move: Move): Interval => {
  if (typeof move !== 'number') return intervalInKey(move, key);
  const usual = intervalOf(move);
  const accidentals = (interval: Interval): number => Math.abs(transposeKey(key, interval).fifths);
  return [-1, 1]
    .map(steps => ({ ...usual, steps: usual.steps + steps }))
    .reduce((best, other) => (accidentals(other) < accidentals(best) ? other : best), usual);
};

const transposeMeasure = (measure: TuneMeasure, move: Move): TuneMeasure => {
  const moved = (key: Key): Key => transposeKey(key, spellingIn(key, move));
  /** The spelling of the key in force: it may change within the measure. */
  const intervalAt = (moment: Ticks): Interval => {
    const change = measure.changes.findLast(({ at, key }) => at <= moment && key);
    return spellingIn(change?.key ?? measure.key, move);
  };
  return {
    ...measure,
    key: moved(measure.key),
    changes: measure.changes.map(change => (change.key ? { ...change, key: moved(change.key) } : change)),
    events: measure.events.map(event => transposeEvent(event, intervalAt(event.at))),
    chordSymbols: measure.chordSymbols.map(symbol => transposeSymbol(symbol, intervalAt(symbol.at))),
  };
};

const transposeEvent = (event: MusicEvent, interval: Interval): MusicEvent =>
  event.kind === 'rest' ? event : { ...event, heads: event.heads.map(head => transposeHead(head, interval)) };

/** Places that are marked in the file are those of the old key and are dropped. */
const transposeHead = (head: Head, interval: Interval): Head => ({
  ...head,
  pitch: transposePitch(head.pitch, interval),
  marked: UNMARKED,
});

/** The same chord, so far away. */
export const transposeSymbol = (symbol: ChordSymbol, interval: Interval): ChordSymbol => ({
  ...symbol,
  root: symbol.root && transposeNote(symbol.root, interval),
  bass: symbol.bass && transposeNote(symbol.bass, interval),
});

const transposeNote = (note: ChordNote, interval: Interval): ChordNote => {
  const { step, alter } = transposePitch({ ...note, octave: 4 }, interval);
  return { step, alter };
};
