/** Scales and arpeggios: their notes, key signatures, order and places. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ChordType, Note, Scale, ScaleType } from 'tonal';
import { describe, expect, test } from 'vitest';
import { degreesBetween, type ScaleNotes, scaleFor, scaleNotes } from '../../src/lesson/scale/notes.ts';
import { orderOf, PATTERNS } from '../../src/lesson/scale/pattern.ts';
import { makeScale, type ScaleWanted } from '../../src/lesson/scale.ts';
import { readScore } from '../../src/read/read.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import { midi, pitchName } from '../../src/score/pitch.ts';
import { written } from '../support/fingered.ts';
import { lessonBy, lessonFor, names, notesOf, placementsOf, struckHeads } from '../support/lesson.ts';
import { quarters } from '../support/melody.ts';

const ask = (name: string, more: Partial<ScaleWanted> = {}): ScaleWanted => ({
  scale: scaleNotes(name),
  octaves: undefined,
  direction: 'up',
  pattern: 'steps',
  ...more,
});

describe('C major in frets 4-8 (check value: common practice)', () => {
  const low = '4/5[2] 4/7[4] 3/4[1] 3/5[2] 3/7[4] 2/5[1] 2/7[3] 2/8[4] 1/5[1] 1/7[3] 1/8[4]';
  const reverse = (words: string) => words.split(' ').reverse().join(' ');
  const made = (direction: ScaleWanted['direction'], ids: readonly string[]) => {
    const { tune, editions } = makeScale(ask('C major', { direction }), lessonFor(ids, [4, 8]));
    return { tune, editions, places: editions.map(each => written(placementsOf(tune, each.arrangement))) };
  };

  test('up', () => expect(made('up', ['ukulele-low-g']).places).toEqual([low]));
  test('down', () => expect(made('down', ['ukulele-low-g']).places).toEqual([reverse(low)]));
  test('both ways with the same places and fingers', () => {
    expect(made('both', ['ukulele-low-g']).places).toEqual([
      `${low} ${reverse(low).split(' ').slice(1).join(' ')}`,
    ]);
  });
  test('the re-entrant edition has the same notes and differs in the two lowest alone', () => {
    const [linear, reentrant] = made('up', ['ukulele-low-g', 'ukulele']).places;
    expect(linear).toBe(low);
    expect(reentrant).toBe(`3/0 3/2[1] ${low.split(' ').slice(2).join(' ')}`);
  });
  test('says where the hand shifts', () => {
    const [edition] = made('both', ['ukulele-low-g']).editions;
    expect(edition!.diagnostics.map(({ code, place }) => [code, place])).toEqual([
      ['hand-shifts', { measure: '2', beat: 2 }],
      ['hand-shifts', { measure: '5', beat: 1 }],
    ]);
  });
  test('says of a note outside the window when it is played, whichever way the scale goes', () => {
    const said = (direction: ScaleWanted['direction']) => {
      const asked = ask('C major', { octaves: 1, direction });
      const [edition] = makeScale(asked, lessonFor(['ukulele'], [5, 7])).editions;
      const about = edition!.diagnostics.find(({ message }) => message.startsWith('C4 has no place'))!;
      return [about.message.replace(/.*: /, ''), about.place];
    };
    expect(said('up')).toEqual(['measure 1 beat 1', { measure: '1', beat: 1 }]);
    expect(said('down')).toEqual(['measure 2 beat 4', { measure: '2', beat: 4 }]);
    expect(said('both')).toEqual(['measure 1 beat 1; measure 4 beat 3', { measure: '1', beat: 1 }]);
  });
  test('fills its measures, and the last note is held to the end', () => {
    for (const { events, length } of made('both', ['ukulele']).tune.measures) {
      expect(events.reduce((sum, event) => sum + event.duration, 0)).toBe(length);
    }
  });
});

describe('the scale of a key', () => {
  test.each([
    [-3, undefined, 'E♭ major'],
    [2, 'minor', 'B minor'],
    [-1, 'dorian', 'G dorian'],
    // "none" is a mode of MusicXML (from memory); files name others that are of no use here.
    [2, 'none', 'D major'],
    [0, 'pelog', 'C major'],
  ])('%i, %s', (fifths, mode, name) => {
    const { measures } = quarters('C4');
    const tune = { measures: measures.map(measure => ({ ...measure, key: { fifths, mode } })) };
    expect(scaleFor(undefined, tune).name).toBe(name);
    expect(scaleFor('A minor', tune).name).toBe('A minor');
  });
});

describe('names', () => {
  test.each([
    ['C major', 'C D E F G A B'],
    ['c', 'C D E F G A B'],
    ['bb major', 'B♭ C D E♭ F G A'],
    ['B♭ major', 'B♭ C D E♭ F G A'],
    ['B flat major', 'B♭ C D E♭ F G A'],
    ['ab', 'A♭ B♭ C D♭ E♭ F G'],
    ['F-sharp minor', 'F♯ G♯ A B C♯ D E'],
    ['Am', 'A B C D E F G'],
    ['D DORIAN', 'D E F G A B C'],
    ['A harmonic minor', 'A B C D E F G♯'],
    ['A minor pentatonic', 'A C D E G'],
    ['C chord', 'C E G'],
    ['Am arpeggio', 'A C E'],
    ['A minor arpeggio', 'A C E'],
    ['G7', 'G B D F'],
    ['Cmaj7', 'C E G B'],
    ['F#m7b5', 'F♯ A C E'],
    ['C9', 'C D E G B♭'],
  ])('%s', (typed, expected) => {
    const degrees = degreesBetween(scaleNotes(typed), 60, 95);
    const from = degrees.findIndex(each => each.isTonic);
    const { length } = scaleNotes(typed).intervals;
    expect(
      degrees
        .slice(from, from + length)
        .map(({ pitch }) => pitchName(pitch, false))
        .join(' '),
    ).toBe(expected);
  });

  test.each(['H major', 'C mayor', '', 'major', 'C major major'])('"%s" is none', typed => {
    expect(() => scaleNotes(typed)).toThrow(/neither a scale nor a chord/);
  });

  test('a key of more than seven accidentals is refused', () => {
    expect(() => scaleNotes('G# major')).toThrow(/8 sharps/);
  });
});

// Key signatures: common practice (the circle of fifths; harmonic and melodic minor are written in minor).
describe('key signatures', () => {
  test.each([
    ['C major', 0],
    ['Eb major', -3],
    ['B major', 5],
    ['A minor', 0],
    ['C minor', -3],
    ['C# minor', 4],
    ['D dorian', 0],
    ['G dorian', -1],
    ['E phrygian', 0],
    ['F lydian', 0],
    ['C lydian', 1],
    ['G mixolydian', 0],
    ['B locrian', 0],
    ['A harmonic minor', 0],
    ['A melodic minor', 0],
    ['E minor pentatonic', 1],
    ['F major pentatonic', -1],
    ['A blues', 0],
    ['G7', 0],
    ['D arpeggio', 2],
    ['Gm arpeggio', -2],
    ['F#m7b5', 1],
  ])('%s: %i', (typed, fifths) => expect(scaleNotes(typed).key.fifths).toBe(fifths));
});

const ROOTS = ['C', 'Db', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];

const chromas = (notes: ScaleNotes): readonly number[] => {
  const degrees = degreesBetween(notes, 36, 80);
  const from = degrees.findIndex(each => each.isTonic);
  const octave = degrees.slice(from, from + notes.intervals.length);
  for (const [index, each] of octave.slice(1).entries())
    expect(each.sound).toBeGreaterThan(octave[index]!.sound);
  return octave.map(({ sound }) => sound % 12).sort((a, b) => a - b);
};

const expected = (notes: readonly string[]): readonly number[] =>
  [...new Set(notes.map(note => Note.chroma(note)!))].sort((a, b) => a - b);

/** Refusals are for key signatures beyond seven accidentals alone. */
const tried = (typed: string): ScaleNotes | undefined => {
  try {
    return scaleNotes(typed);
  } catch (error) {
    expect(error).toBeInstanceOf(Refusal);
    expect((error as Refusal).diagnostics[0]!.code).toBe('key-beyond-seven');
    return undefined;
  }
};

test.each(ScaleType.names())('the scale that tonal calls %s, on every root', type => {
  for (const root of ROOTS) {
    const notes = tried(`${root} ${type}`);
    if (notes) expect(chromas(notes)).toEqual(expected(Scale.get(`${root} ${type}`).notes));
  }
});

test('every chord type of tonal, on every root', () => {
  for (const { aliases, intervals } of ChordType.all()) {
    // Cb9sus is a chord on C♭.
    const alias = aliases.find(each => !/^[b#]/.test(each));
    if (alias === undefined) continue;
    for (const root of ROOTS) {
      const notes = tried(`${root}${alias} arpeggio`)!;
      expect(chromas(notes)).toEqual(expected(intervals.map(each => Note.transpose(root, each))));
    }
  }
});

describe('the order of notes', () => {
  test.each([
    ['steps', 'up', 0, '0 1 2 3 4'],
    ['steps', 'down', 0, '4 3 2 1 0'],
    ['steps', 'both', 0, '0 1 2 3 4 3 2 1 0'],
    ['steps', 'both', 2, '2 3 4 3 2 1 0 1 2'],
    ['thirds', 'up', 0, '0 2 1 3 2 4'],
    ['thirds', 'down', 0, '4 2 3 1 2 0'],
    ['thirds', 'both', 0, '0 2 1 3 2 4 2 3 1 2 0'],
    ['fours', 'up', 0, '0 1 2 3 1 2 3 4'],
  ] as const)('%s %s from %i', (pattern, direction, start, expected) => {
    expect(orderOf(5, start, direction, PATTERNS[pattern]).join(' ')).toBe(expected);
  });
});

describe('octaves', () => {
  test('as many as are asked for', () => {
    const { tune } = makeScale(ask('C major', { octaves: 2 }), lessonFor(['guitar'], undefined));
    expect(names(tune)).toBe('C3 D3 E3 F3 G3 A3 B3 C4 D4 E4 F4 G4 A4 B4 C5');
    expect(tune.title).toBe('C major scale');
  });
  test('are refused where they are not', () => {
    expect(() => makeScale(ask('C major', { octaves: 3 }), lessonFor(['ukulele'], undefined))).toThrow(
      /3 octaves/,
    );
  });
  test('one, where nothing bounds it', () => {
    const { tune } = makeScale(ask('D dorian'), lessonFor(['ukulele'], undefined));
    expect(names(tune)).toBe('D4 E4 F4 G4 A4 B4 C5 D5');
  });
});

const EXAMPLES = fileURLToPath(new URL('../../examples/tunes/', import.meta.url));
const examples = readdirSync(EXAMPLES).filter(name => name.endsWith('.musicxml'));

describe.each(examples)('the warm-up for %s', file => {
  const { tune } = chooseMelody(readScore(readFileSync(EXAMPLES + file)).score, { chords: 'top' });
  const lesson = lessonBy(tune, ['ukulele', 'ukulele-low-g'], [4, 8]);

  test.each(['G major', 'C major', 'F major', 'G chromatic'])(
    '%s: every pitch lies where the tune has it',
    name => {
      const scale = makeScale(ask(name, { direction: 'both' }), lesson);
      scale.editions.forEach(({ arrangement }, index) => {
        let shared = 0;
        for (const head of struckHeads(scale.tune)) {
          const sound = midi(head.pitch);
          const inTune = lesson.known[index]!.get(sound);
          const { string, fret } = arrangement.placements.get(head.id)!;
          if (inTune) {
            expect({ string, fret }).toEqual({ string: inTune.string, fret: inTune.fret });
            shared++;
          }
        }
        expect(shared).toBeGreaterThan(0);
      });
    },
  );

  test('a known place is one that the tune uses, and the one it uses most', () => {
    lesson.arrangements.forEach((arrangement, index) => {
      const uses = struckHeads(tune).map(head => ({
        sound: midi(head.pitch),
        ...arrangement.placements.get(head.id)!,
      }));
      for (const [sound, place] of lesson.known[index]!) {
        const count = (string: number, fret: number) =>
          uses.filter(use => use.sound === sound && use.string === string && use.fret === fret).length;
        const here = count(place.string, place.fret);
        expect(here).toBeGreaterThan(0);
        for (const use of uses)
          if (use.sound === sound) expect(here).toBeGreaterThanOrEqual(count(use.string, use.fret));
      }
    });
  });
});

test('notes are written in values that exist, in every pattern and range', () => {
  for (const pattern of ['steps', 'thirds', 'fours'] as const) {
    for (const octaves of [1, 2]) {
      for (const name of ['C major', 'C minor pentatonic', 'C7', 'C chromatic']) {
        const asked = ask(name, { pattern, octaves, direction: 'both' });
        const { tune } = makeScale(asked, lessonFor(['guitar'], undefined));
        for (const { value, duration } of notesOf(tune)) {
          expect((48 / value.base) * (2 - 0.5 ** value.dots)).toBe(duration);
        }
      }
    }
  }
});
