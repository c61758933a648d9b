/** Editions of one tune for several instruments: the key that they share, and where they differ. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import { arrangeEditions, leftOut } from '../../src/fingering/editions.ts';
import { TRANSPOSITIONS } from '../../src/fingering/survey.ts';
import { findInstrument, withTuning } from '../../src/instrument/define.ts';
import type { Instrument } from '../../src/instrument/instrument.ts';
import { midi } from '../../src/score/pitch.ts';
import { transposeTune } from '../../src/score/transpose-tune.ts';
import type { Tune } from '../../src/score/tune.ts';
import { type Asked, rulesOf } from '../support/fingered.ts';
import { bars, DIVISION, pitchOf, sharpened, tuneOf, tuneOfMeasures } from '../support/melody.ts';
import { refused } from '../support/musicxml.ts';
import { unlessRefused } from '../support/refused.ts';
import { shareOf } from './share.ts';

const UKULELES = ['ukulele', 'ukulele-low-g'].map(id => findInstrument(id));

const editionsOf = (
  tune: Tune,
  {
    instruments = UKULELES,
    transpose = 0,
    match = false,
    ...asked
  }: Partial<Parameters<typeof arrangeEditions>[1]> & Asked,
) => arrangeEditions(tune, { instruments, transpose, match, rules: rulesOf(asked) });

/** Pitches, rows of places: what is played on each instrument. */
const placesIn = ({ editions }: ReturnType<typeof arrangeEditions>) =>
  editions.map(({ arrangement }) =>
    [...arrangement.placements]
      .sort(([a], [b]) => a - b)
      .map(([, { string, fret }]) => `${string}/${fret}`)
      .join(' '),
  );

test('what is said of editions that are left out names each', () => {
  const off = { severity: 'error', code: 'note-off-the-instrument', message: 'B3 cannot be played' } as const;
  const [ukulele] = UKULELES;
  expect(leftOut([])).toEqual([]);
  expect(leftOut([{ instrument: ukulele!, diagnostics: [off, { ...off, message: 'A3 neither' }] }])).toEqual([
    { ...off, message: 'ukulele is left out: B3 cannot be played' },
    { ...off, message: 'ukulele is left out: A3 neither' },
  ]);
});

describe('an edition that cannot be made', () => {
  test('is left out with its reasons, wherever it stands, and the others are as they are without it', () => {
    // B3 lies below the lowest string of the high-G ukulele, and a semitone under the third of the low-G one.
    const tune = bars('B3 C4 E4 G4');
    const alone = editionsOf(tune, { instruments: [findInstrument('ukulele-low-g')] });
    for (const instruments of [UKULELES, [...UKULELES].reverse()]) {
      for (const match of [false, true]) {
        const { editions, refused, diagnostics } = editionsOf(tune, { instruments, match });
        expect(editions.map(each => each.arrangement)).toEqual(alone.editions.map(each => each.arrangement));
        expect(refused).toMatchObject([
          {
            instrument: { id: 'ukulele' },
            diagnostics: [{ code: 'note-off-the-instrument', message: expect.stringMatching(/^B3 cannot/) }],
          },
        ]);
        expect(diagnostics).toEqual([]);
      }
    }
  });

  test('says alone what all say where there is no other', () => {
    const pin = { kind: 'beat', measure: '9', beat: 1, place: { string: 1, fret: 1 } } as const;
    const faults = refused(() => editionsOf(bars('C4'), { pins: [pin] }));
    expect(faults.map(({ code }) => code)).toEqual(['no-note-to-place']);
    expect(faults[0]!.message).not.toMatch(/^ukulele/);
  });
});

describe('the key', () => {
  const sounds = ({ tune }: ReturnType<typeof arrangeEditions>) =>
    tune.measures.flatMap(({ events }) =>
      events.flatMap(event => (event.kind === 'note' ? event.heads.map(({ pitch }) => midi(pitch)) : [])),
    );

  test('is as asked, for all editions', () => {
    const moved = editionsOf(bars('C4 D4'), { transpose: 3 });
    expect(sounds(moved)).toEqual([63, 65]);
    expect(moved.tune.measures[0]!.key.fifths).toBe(-3);
    expect(moved.editions).toHaveLength(2);
    expect(moved.diagnostics).toEqual([]);
  });

  test('may be the best there is, which is said', () => {
    // Below C4 the ukulele has nothing: a fourth up, two flats fewer than a tritone, nearer than an octave.
    const up = editionsOf(bars('G3 A3 B3 C4'), { transpose: 'best' });
    expect(sounds(up)).toEqual([60, 62, 64, 65]);
    expect(up.diagnostics).toMatchObject([
      { severity: 'note', code: 'best-key', message: expect.stringMatching(/moved up 5 semitones$/) },
    ]);
    const same = editionsOf(bars('C4 C4 E4 C4'), { transpose: 'best' });
    expect(sounds(same)).toEqual([60, 60, 64, 60]);
    expect(same.diagnostics).toMatchObject([
      { code: 'best-key', message: expect.stringMatching(/no other key/) },
    ]);
  });

  test('is, of keys that do equally well, the nearest, and upwards rather than downwards', () => {
    // One open string is as good as another: E4 lies as far above D4 as C4 below; from B4, A4 is nearer than E4.
    expect(sounds(editionsOf(bars('D4'), { transpose: 'best' }))).toEqual([64]);
    expect(sounds(editionsOf(bars('B4'), { transpose: 'best' }))).toEqual([69]);
  });

  test('is the old one, with the reason, where none will do', () => {
    const faults = refused(() => editionsOf(bars('C2 C7'), { transpose: 'best' }));
    expect(faults.map(({ message }) => message)).toEqual([
      expect.stringMatching(/^ukulele: C2 cannot be played/),
      expect.stringMatching(/^ukulele: C7 cannot be played/),
      expect.stringMatching(/^ukulele-low-g: C2 cannot be played/),
      expect.stringMatching(/^ukulele-low-g: C7 cannot be played/),
    ]);
  });

  /** Misfits, whether there are more than three sharps or flats, cost; undefined where somebody cannot play it. */
  const worth = (tune: Tune, by: number, instruments: readonly Instrument[], asked: Asked) => {
    const moved = transposeTune(tune, by);
    const all = instruments.map(each =>
      unlessRefused(() => arrange(moved, each, rulesOf({ ...asked, repeats: 'free' })).arrangement),
    );
    if (all.includes(undefined)) return undefined;
    const sum = (of: (n: number) => number) => all.reduce((total, _, n) => total + of(n), 0);
    return [
      sum(n => all[n]!.misfits.length),
      Number(Math.abs(moved.measures[0]!.key.fifths) > 3),
      sum(n => all[n]!.cost),
    ] as const;
  };

  test('that is best has fewest misfits, then few accidentals, then least cost, then is nearest', {
    timeout: 60_000,
  }, () => {
    const melodies = fc.array(fc.integer({ min: 55, max: 77 }), { minLength: 1, maxLength: 4 });
    let chosen = 0;
    fc.assert(
      fc.property(melodies, fc.integer({ min: 1, max: 6 }), (drawn, low) => {
        const tune = tuneOf(drawn.map(sound => ({ pitch: sharpened(sound), duration: DIVISION })));
        const asked: Asked = { frets: [low, low + 4], open: 'never' };
        const answer = unlessRefused(() => editionsOf(tune, { transpose: 'best', ...asked }));
        const tried = TRANSPOSITIONS.flatMap(by => {
          const value = worth(tune, by, UKULELES, asked);
          return value ? [{ by, order: [...value, Math.abs(by), -by] }] : [];
        });
        if (!answer || answer.refused.length > 0) return expect(tried).toEqual([]);
        tried.sort((a, b) => a.order.map((x, n) => x - b.order[n]!).find(x => x !== 0) ?? 0);
        expect(answer.tune.transposition ?? 0).toBe(tried[0]!.by);
        if (tried[0]!.by !== 0) chosen++;
      }),
      { numRuns: Math.max(4, shareOf(12)), seed: 61 },
    );
    expect(chosen).toBeGreaterThan(0);
  });
});

describe('matched editions', () => {
  // In frets 4-8 the linear ukulele has C4 and D4 on its low string, the other nowhere.
  const tune = bars('C4 D4 E4', 'C4 F4');

  test('say where they differ', () => {
    const both = editionsOf(tune, { frets: [4, 8], match: true, repeats: 'free' });
    expect(placesIn(both)).toEqual(['3/0 3/2 3/4 3/0 3/5', '4/5 4/7 3/4 4/5 3/5']);
    expect(both.diagnostics).toMatchObject([{ severity: 'note', code: 'editions-differ' }]);
    expect(both.diagnostics[0]!.message.split(/: |(?<=\)); /)).toEqual([
      '3 notes lie elsewhere than on ukulele',
      'C4 on string 4 fret 5, not string 3 open (measure 1 beat 1; measure 2 beat 1)',
      'D4 on string 4 fret 7, not string 3 fret 2 (measure 1 beat 2)',
    ]);
    const [first, second] = both.editions;
    expect(first!.arrangement.matched).toBeUndefined();
    expect(second!.arrangement.matched!.instrument).toBe(UKULELES[0]);
    expect(second!.arrangement.matched!.differences).toEqual(new Set([10_001, 10_002, 10_004]));
  });

  test('count notes that are held among the differences, but name what is struck', () => {
    const [c] = [pitchOf('C4')];
    const held = tuneOfMeasures([
      {
        number: '1',
        events: [
          { pitches: [c!], duration: DIVISION },
          { pitches: [c!], duration: DIVISION, tied: true },
        ],
      },
    ]);
    const both = editionsOf(held, { frets: [4, 8], match: true });
    expect(both.editions[1]!.arrangement.matched!.differences).toEqual(new Set([10_001, 10_002]));
    expect(both.diagnostics[0]!.message).toMatch(/^one note lies elsewhere/);
  });

  test('say so where all is the same', () => {
    const both = editionsOf(bars('E4 F4 G4'), { frets: [4, 8], match: true });
    expect(both.editions[1]!.arrangement.matched!.differences.size).toBe(0);
    expect(both.diagnostics).toMatchObject([
      { code: 'editions-differ', message: 'every note lies where it does on ukulele' },
    ]);
  });

  test('agree in notes where each by itself would not', () => {
    // A4 is the open first string, unless another edition has it elsewhere.
    const pins = [{ kind: 'pitch', sound: 69, name: 'A4', place: { string: 2, fret: 5 } }] as const;
    const [first] = editionsOf(bars('A4'), { pins }).editions;
    const apart = arrange(bars('A4'), UKULELES[1]!, rulesOf({}));
    const matched = arrange(bars('A4'), UKULELES[1]!, rulesOf({}), first!.arrangement.placements);
    const place = ({ arrangement }: typeof apart) => {
      const [first] = arrangement.placements.values();
      return `${first!.string}/${first!.fret}`;
    };
    expect([place(apart), place(matched)]).toEqual(['1/0', '2/5']);
  });

  test('are each for itself where nothing is to be matched', () => {
    const apart = editionsOf(tune, { frets: [4, 8] });
    expect(apart.diagnostics).toEqual([]);
    expect(apart.editions.map(({ arrangement }) => arrangement.matched)).toEqual([undefined, undefined]);
  });
});

test('editions differ in a note where its string is the same, but not its fret', () => {
  const high = withTuning(findInstrument('ukulele'), 'A4 D4 F#4 B4');
  const made = editionsOf(bars('D4'), { instruments: [findInstrument('ukulele'), high], match: true });
  expect(placesIn(made)).toEqual(['3/2', '3/0']);
  expect(made.diagnostics).toMatchObject([
    { code: 'editions-differ', message: expect.stringMatching(/^one note lies elsewhere than on ukulele: /) },
  ]);
});
