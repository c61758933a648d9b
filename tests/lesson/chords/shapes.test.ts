/** Shapes: check values of common practice, properties of every shape, and the order against plain search. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Grip } from '../../../src/fingering/grip.ts';
import type { Hand } from '../../../src/fingering/hand.ts';
import { handOn, span } from '../../../src/fingering/hand.ts';
import { holdings } from '../../../src/fingering/shapes.ts';
import { findInstrument, withTuning } from '../../../src/instrument/define.ts';
import { openPitches, topFret } from '../../../src/instrument/places.ts';
import type { Chord } from '../../../src/lesson/chords/chord.ts';
import { chordOf, pitchClass, toneClass } from '../../../src/lesson/chords/chord.ts';
import { KINDS } from '../../../src/lesson/chords/kinds.ts';
import { holdingCost, voice, voicingCost } from '../../../src/lesson/chords/order.ts';
import {
  barresSpareSilence,
  type ChordShape,
  soundsOf,
  type Voicing,
} from '../../../src/lesson/chords/shape.ts';
import { chordShapes } from '../../../src/lesson/chords/shapes.ts';
import { hasBass, toneRules } from '../../../src/lesson/chords/tones.ts';
import { silentInside } from '../../../src/lesson/chords/voicings.ts';
import { chord, fingers, frets, handOf, ROOTS, symbolOf } from './support.ts';

const UKULELE = handOf('ukulele');

describe('on the ukulele (common practice, strings in the order G C E A)', () => {
  test.each([
    ['Am7', '0000', '0000'],
    ['B7', '2322', '1211'],
    ['Bb9', '1213', '1213'],
    ['F#m7b5', '2423', '1312'],
    ['C', '0003', '0003'],
    ['F', '2010', '2010'],
    ['G', '0232', '0132'],
    ['Am', '2000', '2000'],
    ['A', '2100', '2100'],
    ['D', '2220', '1230'],
    ['G7', '0212', '0213'],
    ['E7', '1202', '1203'],
    ['Bb', '3211', '3211'],
  ])('%s is first %s, with fingers %s', (symbol, first, held) => {
    const [shape] = chordShapes(UKULELE, chord(symbol), {}, 1);
    expect([frets(shape!), fingers(shape!)]).toEqual([first, held]);
  });

  test('Bb9 does without its root, and says so', () => {
    const [shape] = chordShapes(UKULELE, chord('Bb9'), {}, 1);
    expect(shape!.leftOut.map(({ degree }) => degree)).toEqual([1]);
  });

  test('B7 is a barre over all strings, F#m7b5 over three', () => {
    const barres = (symbol: string) => chordShapes(UKULELE, chord(symbol), {}, 1)[0]!.barres;
    expect(barres('B7')).toEqual([{ finger: 1, fret: 2, from: 4, to: 1 }]);
    expect(barres('F#m7b5')).toEqual([{ finger: 1, fret: 2, from: 4, to: 2 }]);
  });
});

describe('on the guitar (common practice, strings in the order E A D G B E)', () => {
  const guitar = handOf('guitar');
  test.each([
    ['C', 'x32010'],
    ['G', '320003'],
    ['D', 'xx0232'],
    ['E', '022100'],
    ['Am', 'x02210'],
    ['F', '133211'],
    ['Em', '022000'],
  ])('%s is first %s', (symbol, first) => {
    expect(frets(chordShapes(guitar, chord(symbol), {}, 1)[0]!)).toBe(first);
  });
});

const HANDS = ['ukulele', 'ukulele-low-g', 'baritone-ukulele', 'guitar', 'mandolin'].map(handOf);

const anyChord = fc
  .record({
    root: fc.constantFrom(...ROOTS),
    kind: fc.constantFrom(...Object.keys(KINDS)),
    bass: fc.option(fc.constantFrom(...ROOTS), { freq: 3 }),
  })
  .map(({ root, kind, bass }) =>
    chordOf({ ...symbolOf(root, kind), bass: bass === null ? undefined : symbolOf(bass, '').root }),
  ) as fc.Arbitrary<Chord>;

const anyWish = fc.oneof(
  fc.constant({}),
  fc.record({ near: fc.integer({ min: 1, max: 12 }) }),
  fc
    .record({ low: fc.integer({ min: 1, max: 9 }), open: fc.constantFrom('never' as const, 'free' as const) })
    .map(({ low, open }) => ({ window: { low, high: low + 4 }, open })),
);

describe('every shape', () => {
  test('sounds the chord and nothing else, and can be held', () => {
    fc.assert(
      fc.property(fc.constantFrom(...HANDS), anyChord, anyWish, (hand, each, wishes) => {
        for (const shape of chordShapes(hand, each, wishes, 3)) {
          expectNotesOf(hand, each, shape);
          expectHeld(hand, shape);
          for (const fret of shape.frets) {
            if (fret === undefined) continue;
            if (fret > 0 && 'window' in wishes) {
              expect(fret).toBeGreaterThanOrEqual(wishes.window.low);
              expect(fret).toBeLessThanOrEqual(wishes.window.high);
            }
            if ('open' in wishes && wishes.open === 'never') expect(fret).toBeGreaterThan(0);
          }
        }
      }),
      { numRuns: 40, seed: 7 },
    );
  }, 60_000);

  test('is there for every kind and root on the ukulele, but for chords of one note', () => {
    const missing = Object.keys(KINDS).flatMap(kind =>
      ROOTS.filter(root => chordShapes(UKULELE, chordOf(symbolOf(root, kind))!, {}, 1).length === 0).map(
        root => `${root} ${kind}`,
      ),
    );
    expect(missing).toEqual([]);
  }, 60_000);
});

const expectNotesOf = (hand: Hand, each: Chord, shape: ChordShape): void => {
  const bass = each.bass && pitchClass(each.bass);
  const allowed = new Set([...each.tones.map(toneClass), ...(bass === undefined ? [] : [bass])]);
  const sounds = soundsOf(hand, shape.frets);
  for (const sound of sounds) expect(allowed).toContain(sound % 12);
  if (bass !== undefined) {
    expect(sounds.map(sound => sound % 12)).toContain(bass);
    if (hasBass(hand.instrument)) expect(Math.min(...sounds) % 12).toBe(bass);
  }
  // Only fifths, roots and plain inner extensions may be missing, a root only where strings are too few.
  for (const { degree } of shape.leftOut) expect([1, 5, 9, 11]).toContain(degree);
  if (shape.leftOut.some(({ degree }) => degree === 1)) {
    expect(allowed.size).toBeGreaterThan(hand.instrument.strings.length);
  }
};

const expectHeld = (hand: Hand, { touches, frets: byString, position }: ChordShape): void => {
  const stopped = touches.filter(({ fret }) => fret > 0);
  expect(touches.filter(({ fret }) => fret === 0).every(({ finger }) => finger === 0)).toBe(true);
  for (const a of stopped) {
    expect(a.finger).toBeGreaterThan(0);
    for (const b of stopped) {
      // One finger stops one place, or one fret as a barre under which nothing lower sounds or is silent.
      if (a.finger === b.finger) {
        expect(a.fret).toBe(b.fret);
        for (let n = Math.min(a.string, b.string); n <= Math.max(a.string, b.string); n++) {
          expect(byString[n - 1]).toBeGreaterThanOrEqual(a.fret);
        }
      }
      // Fingers ascend with the frets, and reach.
      if (a.finger < b.finger) {
        expect(a.fret).toBeLessThanOrEqual(b.fret);
        expect(span(hand, a.fret, b.fret)).toBeLessThanOrEqual(hand.practical[5 * a.finger + b.finger]!);
      }
      if (a.finger === 1) expect(position).toBeLessThanOrEqual(a.fret);
    }
  }
};

describe('the order', () => {
  test('puts no shape first that a plain search of the whole neck betters', () => {
    // A short neck of three strings is small enough to try every choice of frets.
    const small = { ...withTuning(findInstrument('ukulele'), 'C4 E4 A4'), frets: 7 };
    const hand = handOn(small);
    for (const symbol of ['C', 'Am', 'G7', 'F6', 'Dsus4', 'Bdim']) {
      const each = chord(symbol);
      const [first] = chordShapes(hand, each, {}, 1);
      const costs = everyVoicing(hand, each).flatMap(voicing => {
        const own = voicingCost(voice(hand, each, {}, voicing));
        return everyHolding(hand, voicing).map(grip => own + holdingCost(hand, grip, {}));
      });
      expect(costs.length).toBeGreaterThan(10);
      expect(first!.cost).toBe(Math.min(...costs));
    }
  });

  test('ascends in cost', () => {
    fc.assert(
      fc.property(anyChord, each => {
        const costs = chordShapes(UKULELE, each, {}, 6).map(({ cost }) => cost);
        expect(costs).toEqual([...costs].sort((a, b) => a - b));
      }),
      { numRuns: 20, seed: 3 },
    );
  });

  test('comes near the fret that is asked for', () => {
    for (const near of [3, 5, 7]) {
      const [shape] = chordShapes(UKULELE, chord('G'), { near }, 1);
      expect(Math.abs(shape!.position - near)).toBeLessThanOrEqual(2);
    }
  });
});

/** Every way to hold a voicing. */
const everyHolding = (hand: Hand, voicing: Voicing): readonly Grip[] =>
  holdings(
    hand,
    voicing.flatMap((fret, index) => (fret === undefined ? [] : [{ string: index + 1, fret }])),
  )
    .filter(({ touches }) => barresSpareSilence(voicing, touches))
    .map(holding => ({ ...holding, fit: 'inside', astray: 0 }));

/** Every choice of a fret or silence for each string that sounds the chord as the rules want it. */
const everyVoicing = (hand: Hand, each: Chord): Voicing[] => {
  const rules = toneRules(each, hand.instrument);
  const choices = [undefined, ...Array.from({ length: topFret(hand.instrument) + 1 }, (_, fret) => fret)];
  let all: Voicing[] = [[]];
  for (const _ of openPitches(hand.instrument))
    all = all.flatMap(before => choices.map(fret => [...before, fret]));
  return all.filter(voicing => {
    const classes = new Set(soundsOf(hand, voicing).map(sound => sound % 12));
    return (
      classes.size > 0 &&
      silentInside(voicing) <= 1 &&
      [...classes].every(each => rules.allowed.has(each)) &&
      [...rules.needed].every(each => classes.has(each))
    );
  });
};
