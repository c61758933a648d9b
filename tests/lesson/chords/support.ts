/** Chords and hands for tests. */
import { type Hand, handOn } from '../../../src/fingering/hand.ts';
import { findInstrument } from '../../../src/instrument/define.ts';
import { type Chord, chordOf } from '../../../src/lesson/chords/chord.ts';
import type { ChordShape } from '../../../src/lesson/chords/shape.ts';
import { parseChordSymbol } from '../../../src/lesson/chords/symbol.ts';
import type { ChordSymbol } from '../../../src/score/model/chord-symbol.ts';
import type { Step } from '../../../src/score/pitch.ts';

export const handOf = (id: string): Hand => handOn(findInstrument(id));

export const chord = (symbol: string): Chord => chordOf(parseChordSymbol(symbol))!;

export const symbolOf = (root: string, kind: string): ChordSymbol => ({
  at: 0,
  root: { step: root[0] as Step, alter: root.endsWith('#') ? 1 : root.endsWith('b') ? -1 : 0 },
  kind,
  text: undefined,
  bass: undefined,
  degrees: [],
  source: { line: 1, part: '', measure: '' },
});

/** As players write a shape: from the lowest string on, x for a silent one. */
export const frets = ({ frets: byString }: Pick<ChordShape, 'frets'>): string =>
  [...byString]
    .reverse()
    .map(fret => (fret === undefined ? 'x' : fret > 9 ? `(${fret})` : fret))
    .join('');

/** The fingers in the same order; 0 where none is. */
export const fingers = ({ frets: byString, touches }: ChordShape): string =>
  byString
    .map((_, index) => touches.find(({ string }) => string === index + 1)?.finger ?? 0)
    .reverse()
    .join('');

export const ROOTS = ['C', 'C#', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'Gb', 'G', 'Ab', 'A', 'Bb', 'B'] as const;
