/** What is refused as a whole: chords that no hand holds, windows that are none, rules against each other. */
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Pin } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import type { Tune } from '../../src/score/tune.ts';
import { type Asked, rulesOf } from '../support/fingered.ts';
import { bars, DIVISION, pitchOf, quarters, tuneOfMeasures } from '../support/melody.ts';
import { refused } from '../support/musicxml.ts';

const ask = (tune: Tune, asked: Asked = {}) => arrange(tune, findInstrument('ukulele'), rulesOf(asked));
const said = (tune: Tune, asked: Asked = {}) => ask(tune, asked).diagnostics;
const faults = (tune: Tune, asked: Asked = {}) => refused(() => ask(tune, asked));

/** One chord, lowest note first. */
const chord = (names: string): Tune =>
  tuneOfMeasures([{ number: '1', events: [{ pitches: names.split(' ').map(pitchOf), duration: DIVISION }] }]);

describe('chords', () => {
  test('that no shape holds are refused', () => {
    // Semitones apart, three notes need three strings within a hand's reach.
    expect(faults(chord('C4 C#4 D4'))).toMatchObject([
      {
        severity: 'error',
        code: 'no-shape',
        message: expect.stringMatching(/^C4 C♯4 D4 cannot be held at once/),
        hint: 'play top notes only with --chords top',
        place: { measure: '1', beat: 1 },
      },
    ]);
  });

  test('that no shape holds are offered only what is in force', () => {
    const hintOf = (asked: Asked): string => faults(chord('C4 C#4 D4'), asked)[0]!.hint!;
    expect(hintOf({ frets: [0, 5], onePlace: true })).toBe(
      'play top notes only with --chords top, or widen the window, or leave out --one-place',
    );
    expect(hintOf({ keepMarked: true })).toMatch(/or leave out --keep-marked$/);
    expect(hintOf({ keepMarked: true, open: 'never' })).toMatch(
      /^play top notes only with --chords top, or leave out --keep-marked or --open never$/,
    );
    const first: Pin = { kind: 'pitch', sound: 62, name: 'D4', place: { string: 3, fret: 2 } };
    expect(hintOf({ pins: [first] })).toMatch(/, or leave out --place$/);
  });

  test('whose notes are in the window but for one are refused for that one', () => {
    // C4 is an open string and has no other place; E4 and A4 lie in frets 4 to 8.
    const rules = { frets: [4, 8], open: 'never', outside: 'refuse' } as const;
    expect(faults(chord('C4 E4 A4'), rules)).toMatchObject([{ code: 'note-outside-window' }]);
  });

  test('are held where they can be', () => expect(said(chord('C4 E4 A4'))).toEqual([]));
});

describe('windows', () => {
  test.each([
    [[8, 4], 'write the lower fret first: 4-8'],
    [[-1, 4], 'the neck has frets 0 to 18'],
    [[19, 22], 'the neck has frets 0 to 18'],
    [[4, 30], 'the neck has frets 0 to 18: write 4-18'],
    [[4, 18], undefined],
    [[0, 0], undefined],
    [[5, 5], undefined],
    [[0, 30], 'the neck has frets 0 to 18: write 0-18'],
    [[18, 30], 'the neck has frets 0 to 18: write 18-18'],
  ] as const)('%j is on the neck, or: %s', (frets, hint) => {
    const act = () => ask(quarters('E5'), { frets: [...frets] as [number, number] });
    if (hint === undefined) expect(act).not.toThrow();
    else expect(refused(act)).toMatchObject([{ severity: 'error', code: 'window-off-the-neck', hint }]);
  });
});

describe('windows for some measures', () => {
  const numbered = (...numbers: readonly string[]): Tune =>
    tuneOfMeasures(
      numbers.map(number => ({ number, events: [{ pitches: [pitchOf('E5')], duration: DIVISION }] })),
    );
  const from = (low: number, high: number): Asked => ({
    windows: [{ measures: { from: low, to: high }, window: { low: 4, high: 8 } }],
  });

  test.each([
    [1, 1],
    [3, 9],
    [2, 2],
    [0, 1],
  ])('hold in those that there are: %i to %i', (low, high) =>
    expect(said(numbered('1', '2a', 'X1', '3'), from(low, high))).toEqual([]),
  );

  test.each([
    [4, 9, 'measures 4-9'],
    [0, 0, 'pickup'],
    [7, 7, 'measure 7'],
  ])('are refused where the tune has none of them: %i to %i', (low, high, name) =>
    expect(faults(numbered('1', '2a', 'X9', '3'), from(low, high))).toEqual([
      {
        severity: 'error',
        code: 'window-without-measures',
        message: `there are no ${name} for a window to hold in`,
        hint: expect.stringMatching(/^there are measures 1.*3$/),
      },
    ]),
  );

  test('are refused between two numbers that the tune has', () =>
    expect(faults(numbered('1', '5'), from(2, 4))).toMatchObject([
      { code: 'window-without-measures', hint: 'there are measures 1, 5' },
    ]));

  test('are refused where no measure has a number', () =>
    expect(faults(numbered('X1', ''), from(1, 2))).toMatchObject([
      { code: 'window-without-measures', hint: 'none of its measures has a number' },
    ]));
});

test('rules that contradict each other are refused', () => {
  // Every E4 in one place, but two of them chosen apart.
  const pins = [2, 3].map(
    (string): Pin => ({
      kind: 'beat',
      measure: `${string - 1}`,
      beat: 1,
      place: { string, fret: string === 2 ? 0 : 4 },
    }),
  );
  expect(faults(bars('E4', 'E4'), { pins, onePlace: true })).toMatchObject([
    { severity: 'error', code: 'rules-contradict' },
  ]);
  expect(faults(bars('E4', 'E4'), { pins, onePlace: true, level: 'least' })).toMatchObject([
    { severity: 'error', code: 'rules-contradict' },
  ]);
});
