/** What is said of notes that do not fit and of rules that cannot be kept: code, place, measures and beats. */
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesDiagnostics } from '../../src/fingering/misfits.ts';
import type { Pin } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { UNMARKED } from '../../src/score/model/event.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import type { Tune } from '../../src/score/tune.ts';
import { type Asked, rulesOf } from '../support/fingered.ts';
import { bars, DIVISION, pitchOf, tuneOfMeasures } from '../support/melody.ts';
import { refused } from '../support/musicxml.ts';

const ask = (tune: Tune, asked: Asked = {}, id = 'ukulele') =>
  arrange(tune, findInstrument(id), rulesOf(asked));
const said = (tune: Tune, asked: Asked = {}, id = 'ukulele') => ask(tune, asked, id).diagnostics;
const faults = (tune: Tune, asked: Asked = {}, id = 'ukulele') => refused(() => ask(tune, asked, id));

/** One chord, lowest note first. */
const chord = (names: string): Tune =>
  tuneOfMeasures([{ number: '1', events: [{ pitches: names.split(' ').map(pitchOf), duration: DIVISION }] }]);

describe('notes off the instrument', () => {
  test('are listed once a pitch, with every measure and beat, and what would help', () => {
    expect(faults(bars('C4 G3 C4 G3', 'B3 C4', 'C4 G3'))).toMatchObject([
      {
        severity: 'error',
        code: 'note-off-the-instrument',
        message: expect.stringMatching(/^G3 .*: measure 1 beats 2 and 4; measure 3 beat 2$/),
        // The low G has every note; so has the key a fourth higher. That is not to say that a window has.
        hint: expect.stringMatching(
          /^every note could be played transposed up 5 semitones.* on ukulele-low-g,/,
        ),
        place: { measure: '1', beat: 2 },
      },
      { message: expect.stringMatching(/^B3 .*: measure 2 beat 1$/), place: { measure: '2', beat: 1 } },
    ]);
  });

  test('of a tune that was moved are helped by a key that is counted from the written one', () => {
    // The high G begins at C4: what is written fits, and what lies a semitone under it fits a semitone higher.
    const [fits, low] = [bars('C4 D4'), bars('B3 D4')];
    expect(faults(transposeTune(fits, -2))[0]!.hint).toMatch(/in the key that it is written in/);
    expect(said(fits)).toEqual([]);
    expect(faults(transposeTune(low, -2))[0]!.hint).toMatch(/transposed up 1 semitone in all/);
    expect(said(transposeTune(low, 1))).toEqual([]);
  });

  test('are so in a chord whose other notes are on it, too', () =>
    expect(faults(chord('C2 C4'))).toMatchObject([
      { code: 'note-off-the-instrument', message: expect.stringMatching(/^C2 /) },
    ]));

  test('without a way out have no hint', () => {
    const [fault] = faults(bars('E1 C8'));
    expect(fault).not.toHaveProperty('hint');
  });
});

describe('notes outside the window', () => {
  test('are refused where they must not be, a fault for each window', () => {
    const windows = [
      { measures: { from: 1, to: 2 }, window: { low: 5, high: 8 } },
      { measures: { from: 3, to: 3 }, window: { low: 7, high: 10 } },
    ];
    const rules = { windows, open: 'never', outside: 'refuse' } as const;
    expect(faults(bars('F4 E4', 'E4', 'E4 G4'), rules)).toMatchObject([
      {
        severity: 'error',
        code: 'note-outside-window',
        message: 'E4 has no place in frets 5-8 without open strings: measure 1 beat 2; measure 2 beat 1',
        // E4 lies at fret 4 of string 3; F4 at fret 5: frets 4-8 hold both.
        hint: expect.stringMatching(/in frets 4-8/),
        place: { measure: '1', beat: 2 },
      },
      {
        message: 'E4 has no place in frets 7-10 without open strings: measure 3 beat 1',
        hint: expect.stringMatching(/in frets 4-10/),
        place: { measure: '3', beat: 1 },
      },
    ]);
  });

  test('are warnings where they lie outside, notes where an open string sounds them', () => {
    expect(said(bars('F4 E4', 'E4 D4'), { frets: [5, 8] })).toMatchObject([
      {
        severity: 'note',
        code: 'open-string-in-window',
        message: 'E4 has no place in frets 5-8; played on string 2 open: measure 1 beat 2; measure 2 beat 1',
        place: { measure: '1', beat: 2 },
      },
      {
        severity: 'warning',
        code: 'note-outside-window',
        message: expect.stringMatching(
          /^D4 has no place in frets 5-8; played on string 3 fret 2: measure 2 beat 2$/,
        ),
        hint: expect.stringMatching(/every note would fit/),
        place: { measure: '2', beat: 2 },
      },
    ]);
    expect(said(bars('F4 G4'), { frets: [5, 8] })).toEqual([]);
  });

  test('in a measure without a number are told with the window of the measure before', () => {
    const quarter = (name: string) => ({ pitches: [pitchOf(name)], duration: DIVISION });
    const tune = tuneOfMeasures([
      { number: '1', events: [quarter('F4')] },
      { number: 'X1', events: [quarter('E4')] },
    ]);
    const windows = [{ measures: { from: 1, to: 1 }, window: { low: 5, high: 8 } }];
    expect(said(tune, { windows })[0]!.message).toMatch(/^E4 has no place in frets 5-8; /);
    expect(faults(tune, { windows, open: 'never', outside: 'refuse' })[0]!.message).toMatch(
      /^E4 has no place in frets 5-8 without open strings: /,
    );
  });

  test('on a beat between others are placed to the hundredth', () => {
    const third = { pitches: [pitchOf('E4')], duration: DIVISION / 3 };
    const tune = tuneOfMeasures([
      {
        number: '7',
        events: [third, third, third].map((each, n) =>
          n === 1 ? each : { ...each, pitches: [pitchOf('F4')] },
        ),
      },
    ]);
    expect(said(tune, { frets: [5, 8] })[0]!.message).toMatch(/measure 7 beat 1\.33$/);
  });
});

describe('chosen places', () => {
  const pin = (sound: number, string: number, fret: number): Pin => ({
    kind: 'pitch',
    sound,
    name: 'it',
    place: { string, fret },
  });
  const at = (measure: string, beat: number, string: number, fret: number): Pin => ({
    kind: 'beat',
    measure,
    beat,
    place: { string, fret },
  });

  test('are where the note is played', () => {
    const placed = (pins: readonly Pin[]) =>
      [...ask(bars('E4 F4', 'E4'), { pins }).arrangement.placements.values()].map(
        ({ string, fret }) => `${string}/${fret}`,
      );
    expect(placed([pin(64, 3, 4)])).toEqual(['3/4', expect.any(String), '3/4']);
    expect(placed([at('2', 1, 3, 4)])[2]).toBe('3/4');
    expect(placed([at('1', 2.005, 3, 5)])[1]).toBe('3/5');
    expect(placed([pin(64, 3, 4), at('1', 1, 3, 4)])[0]).toBe('3/4');
  });

  test.each([
    ['impossible-place', [pin(64, 2, 3)], /^E4 does not sound on string 2 fret 3 of/],
    ['impossible-place', [pin(64, 3, 4), at('2', 1, 2, 0)], /^E4 .* string 3 fret 4 and on string 2 open$/],
    ['impossible-place', [pin(64, 2, 0), at('2', 1, 2, 1)], /^E4 .* string 2 open and on string 2 fret 1$/],
    ['no-note-to-place', [pin(72, 1, 3)], /no it to be placed on string 1 fret 3 of Ukulele/],
    ['no-note-to-place', [at('1', 3, 2, 0)], /in measure 1 beat 3$/],
    ['no-note-to-place', [at('2', 2, 2, 0)], /in measure 2 beat 2$/],
    ['no-note-to-place', [at('1', 1.02, 2, 0)], /in measure 1 beat 1.02$/],
  ] as const)('that cannot be are refused: %s %#', (code, pins, message) => {
    const all = faults(bars('E4 F4', 'E4'), { pins });
    expect(all[0]).toMatchObject({ severity: 'error', code, message: expect.stringMatching(message) });
    if (code === 'impossible-place') expect(all[0]!.place).toMatchObject({ beat: 1 });
  });

  test('that cannot be are named once for all notes, with the places that there are', () => {
    // Places: E4 sounds at the open string 2 and four semitones above C4, on string 3; string 4 begins above it.
    expect(faults(bars('E4 F4', 'E4 E4'), { pins: [pin(64, 2, 3)] })).toMatchObject([
      {
        code: 'impossible-place',
        message: expect.stringMatching(/high G: measure 1 beat 1; measure 2 beats 1 and 2$/),
        hint: expect.stringMatching(/^E4 lies on string 2 open, string 3 fret 4; choose/),
        place: { measure: '1', beat: 1 },
      },
    ]);
  });

  test.each([
    [[pin(72, 1, 3)], 'the notes are D4, E4, F4, G4'],
    [[at('1', 3, 2, 0)], 'notes are struck in measure 1 beats 1 and 2'],
    [[at('7', 1, 2, 0)], 'notes are struck in measures 1, 2'],
  ] as const)('where there is no such note are answered with those that there are: %#', (pins, hint) => {
    expect(faults(bars('G4 F4', 'E4 D4'), { pins })).toMatchObject([{ code: 'no-note-to-place', hint }]);
  });

  test('that are wrong for several pitches are named for each', () =>
    expect(faults(bars('E4 F4'), { pins: [pin(64, 2, 3), pin(65, 2, 3)] })).toMatchObject([
      { code: 'impossible-place', message: expect.stringMatching(/^E4 does not sound on string 2 fret 3 /) },
      { code: 'impossible-place', message: expect.stringMatching(/^F4 does not sound on string 2 fret 3 /) },
    ]));

  test('of a beat are those of the top note', () => {
    const { arrangement } = ask(chord('C4 A4'), { pins: [at('1', 1, 2, 5)] });
    expect([...arrangement.placements.values()].map(({ string, fret }) => `${string}/${fret}`)).toEqual([
      '3/0',
      '2/5',
    ]);
  });
});

describe('what the file marks', () => {
  const marked = (string?: number, fret?: number, finger?: number): Tune =>
    tuneOfMeasures([
      {
        number: '1',
        events: [{ pitches: [pitchOf('E4')], duration: DIVISION, marked: [{ string, fret, finger }] }],
      },
    ]);
  const kept = (tune: Tune) => {
    const [place] = ask(tune, { keepMarked: true }).arrangement.placements.values();
    return `${place!.string}/${place!.fret}[${place!.finger}]`;
  };

  test('is obeyed if asked for: string, fret, finger, each by itself', () => {
    expect(kept(marked(3))).toMatch(/^3\/4/);
    expect(kept(marked(undefined, 4))).toMatch(/^3\/4/);
    expect(kept(marked(undefined, undefined, 3))).toBe('3/4[3]');
    expect(kept(marked(undefined, undefined, 0))).toBe('2/0[0]');
    expect(said(marked(3), { keepMarked: true })).toEqual([]);
  });

  test('is passed over else, which is said', () => {
    for (const tune of [marked(3), marked(undefined, 4), marked(undefined, undefined, 2)])
      expect(said(tune)).toMatchObject([
        { severity: 'note', code: 'marks-ignored', message: expect.stringMatching(/for 1 note were/) },
      ]);
    expect(said(marked())).toEqual([]);
    const [measure] = marked(3).measures;
    const twice = { ...marked(3), measures: [measure!, { ...measure!, index: 1, at: 12 }] };
    expect(said(twice)[0]!.message).toMatch(/for 2 notes were/);
    const half = tuneOfMeasures([
      {
        number: '1',
        events: [
          {
            pitches: ['C4', 'A4'].map(pitchOf),
            duration: DIVISION,
            marked: [undefined, { ...UNMARKED, string: 1 }],
          },
        ],
      },
    ]);
    expect(said(half)[0]!.message).toMatch(/for 1 note were/);
  });

  test.each([
    [[2, 4, undefined], /^E4 does not sound on string 2 fret 4 of Ukulele/],
    [[2, undefined, 3], /on string 2 with finger 3 of/],
    [[3, undefined, 0], /on string 3 as an open string of/],
    [[undefined, 7, undefined], /on fret 7 of/],
  ] as const)('and cannot be is refused: %j', (mark, message) => {
    expect(faults(marked(...mark), { keepMarked: true })).toMatchObject([
      { code: 'impossible-place', message: expect.stringMatching(message) },
    ]);
  });
});

test('a search that was cut off is owned up to', () => {
  const { problem, found } = ask(bars('C4', 'C4'));
  expect(rulesDiagnostics(problem, { ...found, proven: true })).toEqual([]);
  expect(rulesDiagnostics(problem, { ...found, proven: false })).toMatchObject([
    { severity: 'note', code: 'not-proven-cheapest', hint: expect.stringMatching(/^--free-repeats /) },
  ]);
});
