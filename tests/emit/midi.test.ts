/** Practice tracks, read back with midi-file (npm), an independent reader of Standard MIDI Files. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { type MidiData, type MidiEvent, parseMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import { type Practice, toMidi } from '../../src/emit/midi.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { midi } from '../../src/score/pitch.ts';
import { playOrder } from '../../src/score/play-order.ts';
import type { Tune } from '../../src/score/tune.ts';
import { pitchOf, quarters, tuneOf } from '../support/melody.ts';
import { attributes, note, tuneFrom } from '../support/musicxml.ts';

const EXAMPLES = fileURLToPath(new URL('../../examples/tunes/', import.meta.url));
const UKULELE = findInstrument('ukulele');

const readBack = (tune: Tune, practice: Practice = {}, instrument = UKULELE): MidiData =>
  parseMidi(toMidi(tune, instrument, practice).bytes);

interface Heard {
  /** In quarter notes from the start of the file. */
  readonly at: number;
  readonly length: number;
  readonly sound: number;
}

/** The notes of a track; fails where a note is not ended, or ended twice. */
const heard = (file: MidiData, track: number): readonly Heard[] => {
  const notes: Heard[] = [];
  const open = new Map<number, number>();
  let now = 0;
  for (const event of file.tracks[track]!) {
    now += event.deltaTime;
    if (event.type === 'noteOn') {
      expect(open.has(event.noteNumber)).toBe(false);
      open.set(event.noteNumber, now);
    } else if (event.type === 'noteOff') {
      const from = open.get(event.noteNumber)!;
      open.delete(event.noteNumber);
      const quarter = file.header.ticksPerBeat!;
      notes.push({ at: from / quarter, length: (now - from) / quarter, sound: event.noteNumber });
    }
  }
  expect(open.size).toBe(0);
  return notes.sort((a, b) => a.at - b.at || a.sound - b.sound);
};

const events = <T extends MidiEvent['type']>(file: MidiData, track: number, type: T) =>
  file.tracks[track]!.filter((event): event is Extract<MidiEvent, { type: T }> => event.type === type);

const CLICKS = 1;
const MELODY = 2;
const CHORDS = 3;

describe('a file', () => {
  const file = readBack(quarters('C4 E4 r G4'));

  test('is of format 1 with a track each for tempo, clicks and melody', () => {
    expect(file.header).toMatchObject({ format: 1, numTracks: 3 });
    expect(file.tracks.map(track => track.at(-1)!.type)).toEqual(Array(3).fill('endOfTrack'));
  });

  test('has the melody after a measure of clicks', () => {
    expect(heard(file, MELODY)).toEqual([
      { at: 4, length: 1, sound: 60 },
      { at: 5, length: 1, sound: 64 },
      { at: 7, length: 1, sound: 67 },
    ]);
    expect(heard(file, CLICKS).map(each => each.at)).toEqual([0, 1, 2, 3]);
    expect(events(file, CLICKS, 'noteOn').map(each => each.channel)).toEqual([9, 9, 9, 9]);
  });

  // General MIDI 1, counted from 0 (from memory): 24 and 25 are guitars, 33 a bass; 24 … 39 are plucked.
  test.each([
    ['ukulele', 24],
    ['guitar', 24],
    ['mandolin', 25],
    ['bass', 33],
  ])('plays %s with programme %i', (id, program) => {
    const made = readBack(quarters('G2'), {}, findInstrument(id));
    expect(events(made, MELODY, 'programChange').map(each => each.programNumber)).toEqual([program]);
  });
});

describe('tempo', () => {
  const perMinute = (file: MidiData): readonly number[] =>
    events(file, 0, 'setTempo').map(each => Math.round(60e6 / each.microsecondsPerBeat));
  const marked = tuneFrom(
    `${attributes()}<direction><direction-type><metronome><beat-unit>half</beat-unit><per-minute>60</per-minute></metronome></direction-type></direction>${note('C4', 48)}`,
    note('D4', 48),
    `<sound tempo="80"/>${note('E4', 48)}`,
  );

  test('is the tune’s own, in quarter notes', () => expect(perMinute(readBack(marked))).toEqual([120, 80]));
  test('is the one that is asked for', () =>
    expect(perMinute(readBack(marked, { tempo: 70 }))).toEqual([70]));
  test('slowed', () => expect(perMinute(readBack(marked, { percent: 60 }))).toEqual([72, 48]));
  test('beats of 6/8 are dotted quarters', () => {
    const jig = tuneFrom(
      `${attributes('<time><beats>6</beats><beat-type>8</beat-type></time>')}${note('C4', 36)}`,
    );
    expect(perMinute(readBack(jig, { tempo: 60 }))).toEqual([90]);
    expect(heard(readBack(jig), CLICKS).map(each => each.at)).toEqual([0, 1.5]);
    expect(events(readBack(jig), 0, 'timeSignature')).toMatchObject([{ numerator: 6, denominator: 8 }]);
  });
  test('goes back with a repeat to what was in force there', () => {
    const tune = tuneFrom(
      `${attributes()}${note('C4', 48)}`,
      `<sound tempo="60"/>${note('D4', 48)}<barline location="right"><repeat direction="backward"/></barline>`,
    );
    expect(perMinute(readBack(tune))).toEqual([90, 60, 90, 60]);
  });
});

describe('what is played', () => {
  test('a pickup has two measures of clicks, and takes the end of the second', () => {
    const tune = tuneFrom(`${attributes()}${note('C4', 12)}`, note('D4', 48));
    const file = readBack(tune);
    expect(heard(file, CLICKS).map(each => each.at)).toEqual([0, 1, 2, 3, 4, 5, 6, 7]);
    expect(heard(file, MELODY).map(each => each.at)).toEqual([7, 8]);
  });

  test('tied notes are one note', () => {
    const tie = (type: string) => ({ after: `<tie type="${type}"/>` });
    const tune = tuneFrom(`${attributes()}${note('C4', 48, tie('start'))}`, note('C4', 24, tie('stop')));
    expect(heard(readBack(tune), MELODY)).toEqual([{ at: 4, length: 6, sound: 60 }]);
  });

  test('a tie does not hold over a jump back', () => {
    const tie = (type: string) => ({ after: `<tie type="${type}"/>` });
    const end = '<barline location="right"><repeat direction="backward"/></barline>';
    const tune = tuneFrom(
      `${attributes()}${note('C4', 48, tie('start'))}${end}`,
      note('C4', 48, tie('stop')),
    );
    expect(heard(readBack(tune), MELODY).map(({ at, length }) => [at, length])).toEqual([
      [4, 4],
      [8, 8],
    ]);
  });

  test('a grace note takes its time from the note it leads to', () => {
    const tune = tuneFrom(
      `${attributes()}${note('D4', 0, { before: '<grace/>', rest: '<type>eighth</type>' })}${note('C4', 48)}`,
    );
    expect(heard(readBack(tune), MELODY)).toEqual([
      { at: 4, length: 0.125, sound: 62 },
      { at: 4.125, length: 3.875, sound: 60 },
    ]);
  });

  test('chords sound until the next, over repeats', () => {
    const chord = (step: string) =>
      `<harmony><root><root-step>${step}</root-step></root><kind>major</kind></harmony>`;
    const end = '<barline location="right"><repeat direction="backward"/></barline>';
    const tune = tuneFrom(
      `${attributes()}${chord('C')}${note('C4', 48)}`,
      `${chord('G')}${note('D4', 48)}${end}`,
    );
    const file = readBack(tune, { chords: true });
    const at = (time: number) => heard(file, CHORDS).filter(each => each.at === time);
    expect(at(4).map(each => each.sound % 12)).toEqual([0, 7, 0, 4]);
    expect(at(4).every(each => each.length === 4)).toBe(true);
    expect([...new Set(heard(file, CHORDS).map(each => each.at))]).toEqual([4, 8, 12, 16]);
  });

  test('any melody comes back as it was, each note as long and as late', () => {
    const anyNote = fc.record({
      pitch: fc.option(fc.constantFrom('C4', 'D4', 'E4').map(pitchOf), { nil: undefined }),
      duration: fc.integer({ min: 1, max: 5000 }),
    });
    fc.assert(
      fc.property(fc.array(anyNote, { minLength: 1, maxLength: 40 }), notes => {
        const tune = tuneOf(notes);
        let now = 48;
        const expected = notes.flatMap(({ pitch, duration }) => {
          const at = now;
          now += duration;
          return pitch ? [{ at: at / 12, length: duration / 12, sound: midi(pitch) }] : [];
        });
        const found = heard(readBack(tune), MELODY);
        expect(found.map(each => each.sound)).toEqual(expected.map(each => each.sound));
        for (const [index, each] of found.entries()) {
          expect(each.at).toBeCloseTo(expected[index]!.at, 6);
          expect(each.length).toBeCloseTo(expected[index]!.length, 6);
        }
      }),
      { numRuns: 100 },
    );
  });
});

const examples = readdirSync(EXAMPLES).filter(name => name.endsWith('.musicxml'));

describe.each(examples)('%s', name => {
  const { score } = readScore(readFileSync(EXAMPLES + name));
  const { tune } = chooseMelody(score, { chords: 'top' });
  const file = readBack(tune, { chords: true });

  test('every struck note of every measure is heard, as often as it is played', () => {
    const struck = tune.measures.map(measure =>
      measure.events.flatMap(event =>
        event.kind === 'note' ? event.heads.filter(head => head.tieFrom === undefined) : [],
      ),
    );
    const expected = playOrder(tune).measures.flatMap(index => struck[index]!.map(head => midi(head.pitch)));
    expect(heard(file, MELODY).map(each => each.sound)).toEqual(expected);
  });

  test('it lasts as long as its measures', () => {
    const quartersPlayed =
      playOrder(tune).measures.reduce((sum, index) => sum + tune.measures[index]!.length, 0) / tune.division;
    const start = heard(file, CLICKS).length;
    const end = Math.max(...heard(file, CHORDS).map(each => each.at + each.length));
    const first = Math.min(...heard(file, MELODY).map(each => each.at));
    expect(start).toBeGreaterThan(0);
    expect(end).toBeCloseTo(first + quartersPlayed, 6);
  });

  test('the same bytes twice', () => {
    expect(toMidi(tune, UKULELE).bytes).toEqual(toMidi(tune, UKULELE).bytes);
  });
});
