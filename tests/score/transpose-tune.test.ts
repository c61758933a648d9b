/** A whole tune moved: notes, keys, chord symbols. */
import fc from 'fast-check';
import { Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import type { Key } from '../../src/score/model/attributes.ts';
import type { ChordNote } from '../../src/score/model/chord-symbol.ts';
import { midi, typedName } from '../../src/score/pitch.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import type { Tune } from '../../src/score/tune.ts';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const symbol = (root: string, bass = ''): string =>
  `<harmony><root><root-step>${root[0]}</root-step>${root[1] ? `<root-alter>${root[1] === '#' ? 1 : -1}</root-alter>` : ''}</root><kind>major</kind>${bass && `<bass><bass-step>${bass}</bass-step></bass>`}</harmony>`;
const key = (fifths: number): string => `<key><fifths>${fifths}</fifths></key>`;
const technical = '<notations><technical><string>3</string><fret>2</fret></technical></notations>';

const tuneIn = (fifths: number, later: number): Tune =>
  tuneFrom(
    `${attributes(`${key(fifths)}<time><beats>4</beats><beat-type>4</beat-type></time>`)}${symbol('C')}${note('C4', 12, { rest: technical })}${symbol('F#', 'E')}${note('E4')}<harmony><kind>none</kind></harmony>${note('r')}<attributes>${key(later)}</attributes>${note('F#4')}`,
    `${note('Bb4', 48)}`,
  );

const pitchesOf = ({ measures }: Tune) =>
  measures.flatMap(({ events }) => events.flatMap(event => (event.kind === 'note' ? event.heads : [])));
const keysOf = ({ measures }: Tune): readonly Key[] =>
  measures.flatMap(({ key: first, changes }) => [
    first,
    ...changes.flatMap(change => (change.key ? [change.key] : [])),
  ]);
const symbolsOf = ({ measures }: Tune) => measures.flatMap(({ chordSymbols }) => chordSymbols);

const signatures = fc.integer({ min: -7, max: 7 });
const distances = fc.integer({ min: -14, max: 14 }).filter(semitones => semitones !== 0);

describe('a tune that is moved', () => {
  test('is spelt as the key in force wants it, though that changes within a measure', () => {
    const moved = transposeTune(tuneIn(0, 5), 6);
    expect(keysOf(moved).map(({ fifths }) => fifths)).toEqual([6, -1, -1]);
    expect(pitchesOf(moved).map(({ pitch }) => typedName(pitch))).toEqual(['F#4', 'A#4', 'C5', 'Fb5']);
  });

  test('sounds so much higher, and its keys and chord symbols with it', () => {
    fc.assert(
      fc.property(signatures, signatures, distances, (first, later, semitones) => {
        const tune = tuneIn(first, later);
        const moved = transposeTune(tune, semitones);
        expect(pitchesOf(moved).map(({ pitch }) => midi(pitch))).toEqual(
          pitchesOf(tune).map(({ pitch }) => midi(pitch) + semitones),
        );
        // A fifth is seven semitones: tonics move as far as the notes, octaves aside.
        keysOf(moved).forEach(({ fifths }, n) => {
          expect((7 * (fifths - keysOf(tune)[n]!.fifths) - semitones) % 12 || 0).toBe(0);
        });
        const chroma = (root: ChordNote): number => Note.chroma(typedName(root))!;
        symbolsOf(moved).forEach((after, n) => {
          const before = symbolsOf(tune)[n]!;
          for (const part of ['root', 'bass'] as const) {
            expect(after[part] === undefined).toBe(before[part] === undefined);
            if (!before[part] || !after[part]) continue;
            expect((chroma(after[part]) - chroma(before[part]) - semitones) % 12 || 0).toBe(0);
            expect(Object.keys(after[part])).toEqual(['step', 'alter']);
          }
        });
      }),
    );
  });

  test('goes to the key with fewest sharps or flats of those that sound so', () => {
    fc.assert(
      fc.property(signatures, signatures, distances, (first, later, semitones) => {
        keysOf(transposeTune(tuneIn(first, later), semitones)).forEach(({ fifths }) => {
          // Keys twelve fifths apart sound the same.
          const least = Math.min(...[-36, -24, -12, 0, 12, 24, 36].map(by => Math.abs(fifths + by)));
          expect(Math.abs(fifths)).toBe(least);
        });
      }),
    );
  });

  test('keeps its letters where the key does: a fifth up from C major lies each note and chord a fifth up', () => {
    const moved = transposeTune(tuneIn(0, 0), 7);
    expect(keysOf(moved).map(({ fifths }) => fifths)).toEqual([1, 1]);
    expect(pitchesOf(moved).map(({ pitch }) => typedName(pitch))).toEqual(
      ['C4', 'E4', 'F#4', 'Bb4'].map(name => Note.transpose(name, '5P')),
    );
    const names = symbolsOf(moved).map(({ root, bass }) => [root, bass].map(each => each && typedName(each)));
    expect(names).toEqual([
      [Note.transpose('C', '5P'), undefined],
      [Note.transpose('F#', '5P'), Note.transpose('E', '5P')],
      [undefined, undefined],
    ]);
  });

  test('of two keys with as many signs takes the usual interval: six semitones up from C are an augmented fourth', () => {
    expect(keysOf(transposeTune(tuneIn(0, 0), 6))[0]).toMatchObject({ fifths: 6 });
  });

  test('loses what was marked for the old key, and tells how far it was moved in all', () => {
    const tune = tuneIn(0, 2);
    expect(pitchesOf(tune)[0]!.marked).toEqual({ string: 3, fret: 2, finger: undefined });
    const moved = transposeTune(transposeTune(tune, 3), -5);
    expect(moved.transposition).toBe(-2);
    for (const { marked } of pitchesOf(moved))
      expect(marked).toEqual({ string: undefined, fret: undefined, finger: undefined });
    expect(transposeTune(tune, 0)).toBe(tune);
  });

  test('keeps all else', () => {
    const tune = tuneIn(0, 2);
    const moved = transposeTune(tune, 4);
    const rhythm = ({ measures }: Tune) =>
      measures.map(({ events, changes }) => [
        events.map(({ id, at, duration, kind, value }) => [id, at, duration, kind, value]),
        changes.map(({ at }) => at),
      ]);
    expect(rhythm(moved)).toEqual(rhythm(tune));
    const time = tuneFrom(
      `${attributes()}${note('C4', 48)}`,
      `<attributes><time><beats>3</beats><beat-type>4</beat-type></time></attributes>${note('C4', 36)}`,
    );
    expect(transposeTune(time, 1).measures[1]!.changes).toEqual(time.measures[1]!.changes);
  });
});
