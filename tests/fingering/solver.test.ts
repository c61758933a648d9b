/** The solver against exhaustive enumeration: every fingering of short melodies, priced note by note. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { arrange } from '../../src/fingering/arrange.ts';
import type { Finger } from '../../src/fingering/arrangement.ts';
import { restPositions } from '../../src/fingering/candidates.ts';
import type { Grip, MoveContext } from '../../src/fingering/grip.ts';
import { canReach, type Hand, handOn } from '../../src/fingering/hand.ts';
import { problemOf } from '../../src/fingering/problem.ts';
import { type OpenPolicy, type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { solve } from '../../src/fingering/solver.ts';
import { type Strike, strikesOf, timingBefore } from '../../src/fingering/strikes.ts';
import { FINGER_TERMS, GRIP_TERMS, HAND_TERMS } from '../../src/fingering/terms/index.ts';
import { chargeMove, toCost } from '../../src/fingering/terms/term.ts';
import { hasteOf } from '../../src/fingering/time.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import { soundAt, topFret } from '../../src/instrument/places.ts';
import { Refusal } from '../../src/score/diagnostic.ts';
import { midi, type Pitch } from '../../src/score/pitch.ts';
import { DIVISION, type MelodyNote, tuneOf } from '../support/melody.ts';

/** Largest number of fingerings that a case may have; longer melodies are cut. */
const MOST_FINGERINGS = 5_000;

const sharpened = (sound: number): Pitch => {
  const names = ['C', 'C', 'D', 'D', 'E', 'F', 'F', 'G', 'G', 'A', 'A', 'B'] as const;
  const step = names[sound % 12]!;
  const octave = Math.floor(sound / 12) - 1;
  return { step, alter: sound - midi({ step, alter: 0, octave }), octave };
};

const instruments = fc
  .record({
    base: fc.constantFrom(...INSTRUMENTS),
    strings: fc.option(fc.array(fc.integer({ min: 40, max: 76 }), { minLength: 1, maxLength: 6 })),
    capo: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ base, strings, capo }) => ({
    ...base,
    capo,
    strings: strings ? strings.map(sharpened) : base.strings,
  }));

const windows = fc.option(
  fc.record({ low: fc.integer({ min: 0, max: 12 }), width: fc.integer({ min: 2, max: 6 }) }),
  { nil: undefined },
);

const melodies = fc.array(
  fc.record({
    string: fc.nat(5),
    fret: fc.nat(14),
    duration: fc.constantFrom(1, 3, 6, 12, 24, 48),
    restAfter: fc.constantFrom(0, 0, 0, 12),
    slurred: fc.boolean(),
  }),
  { minLength: 1, maxLength: 5 },
);

/** Every grip that the rules allow for a pitch, found by trying every finger everywhere. */
const gripsByTrial = (hand: Hand, sound: number, rules: Rules, rest: readonly number[]): readonly Grip[] => {
  const { instrument } = hand;
  const window = rules.windows[0]?.window;
  const low = window?.low ?? 0;
  const high = window?.high ?? topFret(instrument);
  const grips: Grip[] = [];
  const frets = Array.from({ length: topFret(instrument) + 1 }, (_, fret) => fret);
  instrument.strings.forEach((_, index) => {
    const string = index + 1;
    for (const fret of frets) {
      if (soundAt(instrument, { string, fret }) !== sound || fret < low || fret > high) continue;
      if (fret === 0 && rules.open === 'never') continue;
      for (const finger of (fret === 0 ? [0] : [1, 2, 3, 4]) as Finger[]) {
        for (const position of fret === 0 ? rest : frets.slice(Math.max(1, low))) {
          if (finger && !canReach(hand, position, finger, fret)) continue;
          grips.push({ touches: [{ string, fret, finger }], position, fit: 'inside', astray: 0 });
        }
      }
    }
  });
  return grips;
};

const positionsFor = (hand: Hand, sounds: readonly number[], rules: Rules): readonly number[] => {
  const demands = sounds.map(sound => ({
    sounds: [sound],
    window: rules.windows[0]?.window,
    fixed: [undefined],
    targets: [undefined],
  }));
  return restPositions(hand, demands, rules);
};

const contexts = (strikes: readonly Strike[]): readonly MoveContext[] =>
  strikes.slice(1).map((strike, k) => ({
    ...hasteOf(timingBefore(DIVISION, strikes[k]!, strike)),
    slurred: strike.slurred,
  }));

/** The least cost over all fingerings, found by trying every one. */
const cheapestByTrial = (hand: Hand, layers: readonly (readonly Grip[])[], moves: readonly MoveContext[]) => {
  let best = Infinity;
  const visit = (k: number, before: Grip | undefined, cost: number): void => {
    if (k === layers.length) {
      best = Math.min(best, cost);
      return;
    }
    for (const grip of layers[k]!) {
      let here = cost;
      for (const term of GRIP_TERMS) here += toCost(term, term.measure(grip, hand));
      if (before) {
        for (const term of [...HAND_TERMS, ...FINGER_TERMS])
          here += chargeMove(term, before, grip, hand, moves[k - 1]!).cost;
      }
      visit(k + 1, grip, here);
    }
  };
  visit(0, undefined, 0);
  return best;
};

describe('the optimum', () => {
  test('equals exhaustive enumeration, cost for cost', { timeout: 120_000 }, () => {
    let compared = 0;
    fc.assert(
      fc.property(
        instruments,
        windows,
        fc.constantFrom<OpenPolicy>('never', 'rescue', 'free'),
        melodies,
        (instrument, window, open, melody) => {
          const hand = handOn(instrument);
          const windowRules = window ? wholeTune(window.low, window.low + window.width) : [];
          const rules = rulesFrom({ windows: windowRules, open, repeats: 'free' });
          const sounds = melody.map(({ string, fret }) =>
            soundAt(instrument, {
              string: 1 + (string % instrument.strings.length),
              fret: Math.min(fret, topFret(instrument)),
            }),
          );
          const rest = positionsFor(hand, sounds, rules);
          // Notes that need the rules' way out have cases of their own; here every note has a place.
          const layers = sounds.map(sound => gripsByTrial(hand, sound, rules, rest));
          let size = 1;
          let count = 0;
          while (
            count < layers.length &&
            layers[count]!.length > 0 &&
            size * layers[count]!.length <= MOST_FINGERINGS
          ) {
            size *= layers[count++]!.length;
          }
          fc.pre(count > 1);
          if (open === 'free') fc.pre(window === null || window === undefined || window.low === 0);
          const notes = melody
            .slice(0, count)
            .flatMap(({ duration, restAfter }, k): MelodyNote[] => [
              { pitch: sharpened(sounds[k]!), duration },
              ...(restAfter ? [{ pitch: undefined, duration: restAfter }] : []),
            ]);
          const tune = tuneOf(notes, melody[0]!.slurred ? [[1, notes.length]] : []);
          const used = layers.slice(0, count);
          const expected = cheapestByTrial(hand, used, contexts(strikesOf(tune).strikes));
          const restUsed = positionsFor(hand, sounds.slice(0, count), rules);
          fc.pre(restUsed.length === rest.length);
          expect(arrange(tune, instrument, rules).arrangement.cost).toBe(expected);
          compared++;
        },
      ),
      { numRuns: 1500, seed: 20 },
    );
    expect(compared).toBeGreaterThan(1000);
  });

  test('costs the same through every grip of the best path, and never less through another', () => {
    fc.assert(
      fc.property(instruments, melodies, (instrument, melody) => {
        const tune = tuneOf(
          melody.map(({ string, fret, duration }) => ({
            pitch: sharpened(
              soundAt(instrument, {
                string: 1 + (string % instrument.strings.length),
                fret: Math.min(fret, topFret(instrument)),
              }),
            ),
            duration,
          })),
        );
        const { path, cost, through, offsets } = solve(problemOf(tune, instrument, rulesFrom()).lattice);
        path.forEach((grip, k) => {
          expect(through[offsets[k]! + grip]).toBe(cost);
        });
        expect(Math.min(...through)).toBe(cost);
      }),
      { numRuns: 200, seed: 21 },
    );
  });

  test('an empty tune costs nothing, and a window off the neck is refused', () => {
    const guitar = INSTRUMENTS.find(each => each.id === 'guitar')!;
    expect(arrange(tuneOf([]), guitar, rulesFrom()).arrangement.cost).toBe(0);
    expect(() => arrange(tuneOf([]), guitar, rulesFrom({ windows: wholeTune(8, 4) }))).toThrow(Refusal);
    expect(() => arrange(tuneOf([]), guitar, rulesFrom({ windows: wholeTune(30, 34) }))).toThrow(Refusal);
  });
});
