/** Transposing parts, and parts that frets cannot play. */
import { describe, expect, test } from 'vitest';
import { pitchName } from '../../src/score/pitch.ts';
import {
  attributes,
  melodyOf,
  note,
  notesIn,
  partWise,
  readPart,
  refused,
  tuneFrom,
  words,
} from '../support/musicxml.ts';

const voice = (id: string, staff?: number): string =>
  `<voice>${id}</voice>${staff === undefined ? '' : `<type>quarter</type><staff>${staff}</staff>`}`;

const backup = (ticks: number): string => `<backup><duration>${ticks}</duration></backup>`;

describe('transposing parts', () => {
  const transposed = (transpose: string, fifths: number, name: string) =>
    readPart(
      `${attributes(`<key><fifths>${fifths}</fifths></key><transpose>${transpose}</transpose>`)}${note(name, 48)}`,
    );

  // MusicXML 4.0, <transpose>: "the number of semitones to be added to written pitch to get sounding pitch".
  test.each([
    ['B flat', '<diatonic>-1</diatonic><chromatic>-2</chromatic>', 2, 'F#4', 0, 'E4', -2],
    ['E flat', '<diatonic>-5</diatonic><chromatic>-9</chromatic>', 3, 'C#5', 0, 'E4', -9],
    ['F', '<diatonic>-4</diatonic><chromatic>-7</chromatic>', 1, 'F#4', 0, 'B3', -7],
    ['octave', '<chromatic>0</chromatic><octave-change>-1</octave-change>', -1, 'Bb3', -1, 'B♭2', -12],
    ['no steps given', '<chromatic>3</chromatic>', 0, 'C4', -3, 'E♭4', 3],
    ['steps that contradict', '<diatonic>5</diatonic><chromatic>-2</chromatic>', 0, 'C4', -2, 'B♭3', -2],
    ['beyond seven sharps', '<diatonic>-2</diatonic><chromatic>-3</chromatic>', 7, 'C#4', -2, 'B♭3', -3],
  ])('%s', (_, transpose, written, name, key, sounding, semitones) => {
    const part = transposed(transpose, written, name);
    expect(part.measures[0]!.key.fifths).toBe(key);
    expect(pitchName(notesIn(part.measures[0]!)[0]!.heads[0]!.pitch)).toBe(sounding);
    expect(part.transposed).toBe(semitones);
  });

  test('chord symbols and later keys follow', () => {
    const part = readPart(
      `${attributes('<key><fifths>2</fifths></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>')}<harmony><root><root-step>D</root-step></root><kind>major</kind></harmony>${note('D4', 48)}`,
      `<attributes><key><fifths>-1</fifths></key></attributes>${note('F4', 48)}`,
    );
    expect(part.measures[0]!.chordSymbols[0]!.root).toEqual({ step: 'C', alter: 0 });
    expect(part.measures[1]).toMatchObject({
      key: { fifths: -3 },
      changes: [{ at: 0, key: { fifths: -3 } }],
    });
  });
});

describe('what frets cannot play', () => {
  const quarterTone =
    '<note><pitch><step>C</step><alter>0.5</alter><octave>4</octave></pitch><duration>12</duration><voice>2</voice></note>';
  const unpitched = '<note><unpitched/><duration>12</duration><voice>2</voice></note>';

  test.each([
    ['quarter-tones', quarterTone],
    ['unpitched-notes', unpitched],
  ])('%s are a fault of their voice, and of no other', (code, content) => {
    const xml = partWise(
      `${attributes()}${note('C4', 48, { after: voice('1') })}${backup(48)}${content}${content}${note('E4', 24, { after: voice('2') })}`,
    );
    expect(words(melodyOf(xml).tune)).toBe('C4/48');
    const [diagnostic] = refused(() => melodyOf(xml, { voice: '2' }));
    expect(diagnostic).toMatchObject({ code, place: { measure: '1', line: 1 } });
    expect(diagnostic!.message).toContain('2 notes');
  });

  test('in a chord they are not passed over', () => {
    const chord = quarterTone.replace('<note>', '<note><chord/>').replace('<voice>2</voice>', '');
    const xml = partWise(`${attributes()}${note('C4', 12)}${chord}`);
    expect(refused(() => melodyOf(xml))[0]).toMatchObject({ code: 'quarter-tones' });
  });

  test('a score of percussion alone says so', () =>
    expect(refused(() => tuneFrom(`${attributes()}${unpitched}`))[0]).toMatchObject({
      code: 'unpitched-notes',
    }));
});
