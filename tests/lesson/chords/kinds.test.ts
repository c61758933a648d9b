/** Kinds of chords against tonal's chord types, and symbols as they are typed. */
import { ChordType, Chord as Tonal } from 'tonal';
import { describe, expect, test } from 'vitest';
import { chordOf, noteName, pitchClass } from '../../../src/lesson/chords/chord.ts';
import { KINDS } from '../../../src/lesson/chords/kinds.ts';
import { isChordSymbol, parseChordSymbol } from '../../../src/lesson/chords/symbol.ts';
import { Refusal } from '../../../src/score/diagnostic.ts';
import { chord, symbolOf } from './support.ts';

/** MusicXML 4.0, kind-value, from memory; "none" has no notes. */
const KIND_VALUES = `major minor augmented diminished dominant major-seventh minor-seventh diminished-seventh
  augmented-seventh half-diminished major-minor major-sixth minor-sixth dominant-ninth major-ninth minor-ninth
  dominant-11th major-11th minor-11th dominant-13th major-13th minor-13th suspended-second suspended-fourth
  Neapolitan Italian French German pedal power Tristan other`.split(/\s+/);

describe('kinds of chords', () => {
  test('are those of MusicXML, all of them', () => {
    expect(Object.keys(KINDS).sort()).toEqual([...KIND_VALUES].sort());
  });

  test.each(Object.entries(KINDS).filter(([, { symbol }]) => symbol !== undefined))(
    '%s has the intervals that tonal gives',
    (_, { intervals, symbol }) => {
      expect(ChordType.get(symbol!).intervals.join(' ')).toBe(intervals);
    },
  );

  test('"no chord" has no notes', () => {
    expect(chordOf({ ...symbolOf('C', 'none'), root: undefined })).toBeUndefined();
  });
});

const notes = (symbol: string): string =>
  chord(symbol)
    .tones.map(({ note }) => noteName(note))
    .join(' ');

describe('a chord symbol', () => {
  test.each([
    // Common practice.
    ['Am7', 'A C E G'],
    ['B7', 'B D♯ F♯ A'],
    ['Bb9', 'B♭ D F A♭ C'],
    ['F#m7b5', 'F♯ A C E'],
    ['A♭dim7', 'A♭ C♭ E♭♭ G♭♭'],
    ['C(add9)', 'C E G D'],
    ['C7(b9)', 'C E G B♭ D♭'],
    ['C7b9#9', 'C E G B♭ D♭ D♯'],
    ['C7#9b9', 'C E G B♭ D♭ D♯'],
    ['C11b9#9', 'C G B♭ D♭ D♯ F'],
    ['C9b9', 'C E G B♭ D♭'],
    ['C9add9', 'C E G B♭ D'],
    ['Cmadd11', 'C E♭ G F'],
    ['C7sus2', 'C D G B♭'],
    ['E7no5', 'E G♯ D'],
    ['Gø7', 'G B♭ D♭ F'],
    ['Cm(maj7)', 'C E♭ G B'],
  ])('%s has the notes %s', (symbol, expected) => {
    expect(notes(symbol)).toBe(expected);
  });

  test('a slash names the bass', () => {
    expect(chord('D/F#').bass).toEqual({ step: 'F', alter: 1 });
    expect(chord('C6/9').bass).toBeUndefined();
  });

  test.each(['', 'H7', 'am7', 'Cfoo', 'tune.mxl', 'C/H'])('"%s" is none', text => {
    expect(isChordSymbol(text)).toBe(false);
    expect(() => parseChordSymbol(text)).toThrow(Refusal);
  });

  test('means, for each chord type of tonal, the notes that tonal gives', () => {
    for (const { aliases, intervals, empty } of ChordType.all()) {
      const name = aliases.find(alias => alias !== '' && !/[/]|^[b#]/.test(alias));
      if (empty || name === undefined || !isChordSymbol(`C${name}`)) continue;
      const expected = new Set(Tonal.getChord(name, 'C').notes.map(note => pitchClass(asNote(note))));
      const ours = new Set(chord(`C${name}`).tones.map(({ note }) => pitchClass(note)));
      expect(ours, `C${name} (${intervals.join(' ')})`).toEqual(expected);
    }
  });
});

const asNote = (name: string) => ({
  step: name[0] as 'C',
  alter: [...name.slice(1)].reduce((sum, sign) => sum + (sign === '#' ? 1 : -1), 0),
});
