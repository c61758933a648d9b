/** A tune moved to another key: pitches, keys and chord symbols, with the spelling that the key wants. */

import type { Key } from './model/attributes.ts';
import type { ChordNote, ChordSymbol } from './model/chord-symbol.ts';
import type { Head, MusicEvent } from './model/event.ts';
import { type Interval, intervalOf, transposeKey, transposePitch } from './transpose.ts';
import type { Tune, TuneMeasure } from './tune.ts';

/** The tune `semitones` higher (lower if negative); ids, rhythm and words stay. */
export const transposeTune = (tune: Tune, semitones: number): Tune =>
  semitones === 0
    ? tune
    : {
        ...tune,
        transposition: (tune.transposition ?? 0) + semitones,
        measures: tune.measures.map(measure => transposeMeasure(measure, semitones)),
      };

/**
 * The spelling of an interval that leads to the key with fewest accidentals; of two with equally many
 * the usual one.
 */
const spellingIn = (key: Key, semitones: number): Interval => {
  const usual = intervalOf(semitones);
  const accidentals = (interval: Interval): number => Math.abs(transposeKey(key, interval).fifths);
  return [-1, 1]
    .map(steps => ({ ...usual, steps: usual.steps + steps }))
    .reduce((best, other) => (accidentals(other) < accidentals(best) ? other : best), usual);
};

const transposeMeasure = (measure: TuneMeasure, semitones: number): TuneMeasure => {
  const interval = spellingIn(measure.key, semitones);
  return {
    ...measure,
    key: transposeKey(measure.key, interval),
    changes: measure.changes.map(change =>
      change.key ? { ...change, key: transposeKey(change.key, spellingIn(change.key, semitones)) } : change,
    ),
    events: measure.events.map(event => transposeEvent(event, interval)),
    chordSymbols: measure.chordSymbols.map(symbol => transposeSymbol(symbol, interval)),
  };
};

const transposeEvent = (event: MusicEvent, interval: Interval): MusicEvent =>
  event.kind === 'rest' ? event : { ...event, heads: event.heads.map(head => transposeHead(head, interval)) };

/** Places that are marked in the file are those of the old key and are dropped. */
const transposeHead = (head: Head, interval: Interval): Head => ({
  ...head,
  pitch: transposePitch(head.pitch, interval),
  marked: { string: undefined, fret: undefined, finger: undefined },
});

export const transposeSymbol = (symbol: ChordSymbol, interval: Interval): ChordSymbol => ({
  ...symbol,
  root: symbol.root && transposeNote(symbol.root, interval),
  bass: symbol.bass && transposeNote(symbol.bass, interval),
});

const transposeNote = (note: ChordNote, interval: Interval): ChordNote => {
  const { step, alter } = transposePitch({ ...note, octave: 4 }, interval);
  return { step, alter };
};
