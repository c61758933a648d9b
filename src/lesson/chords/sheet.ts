/** What stands on a sheet of chord shapes: each chord with its shapes, and what there is to say about them. */
import type { Hand } from '../../fingering/hand.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import { type Chord, chordOf, type Tone } from './chord.ts';
import type { ChordShape } from './shape.ts';
import { chordShapes } from './shapes.ts';
import type { Wishes } from './voicings.ts';

/** A chord and its shapes. */
export interface ChordEntry {
  readonly chord: Chord;
  /** The best first; empty where the chord cannot be played. */
  readonly shapes: readonly ChordShape[];
}

/** The chords of a tune, for one hand and under the same wishes. */
export interface ChordSheet {
  readonly hand: Hand;
  readonly wishes: Wishes;
  readonly entries: readonly ChordEntry[];
}

/** Up to `count` shapes for each chord, every chord once, in the order in which they come. */
export const chordSheet = (
  hand: Hand,
  symbols: readonly ChordSymbol[],
  wishes: Wishes,
  count: number,
): ChordSheet => {
  const distinct = new Map(symbols.map(symbol => [chordKey(symbol), symbol]));
  const entries = [...distinct.values()].flatMap((symbol): ChordEntry[] => {
    const chord = chordOf(symbol);
    return chord ? [{ chord, shapes: chordShapes(hand, chord, wishes, count) }] : [];
  });
  return { hand, wishes, entries };
};

/** Equal for symbols that ask for the same notes in the same spelling. */
const chordKey = ({ root, kind, bass, degrees }: ChordSymbol): string =>
  JSON.stringify([root, kind, bass, degrees]);

/** Chords without a shape, each with what it would need; `name` writes a symbol. */
export const shapelessChords = (
  { hand: { instrument }, wishes: { window, open }, entries }: ChordSheet,
  name: (symbol: ChordSymbol) => string,
): readonly Diagnostic[] => {
  const where = window ? ` in frets ${window.low}-${window.high}` : '';
  return entries
    .filter(({ shapes }) => shapes.length === 0)
    .map(({ chord }) => ({
      severity: 'warning',
      code: 'no-shape',
      message: `${name(chord.symbol)} has no playable shape on ${instrument.name}${where}`,
      hint: wayOutOf(window !== undefined, open === 'never'),
    }));
};

const wayOutOf = (windowed: boolean, withoutOpen: boolean): string =>
  [
    windowed && 'widen the window with --frets',
    withoutOpen && 'let open strings sound with --open free',
    !windowed && !withoutOpen && 'write a chord with fewer notes in its place',
  ]
    .filter(Boolean)
    .join(', or ');

/** What a shape leaves out, in words: "no root", "no 5th, no 9th"; empty where it is full. */
export const leftOutWords = ({ leftOut }: ChordShape): string =>
  leftOut.map(({ degree }: Tone) => `no ${DEGREES[degree] ?? `${degree}th`}`).join(', ');

const DEGREES: Readonly<Record<number, string>> = { 1: 'root', 2: '2nd', 3: '3rd' };
