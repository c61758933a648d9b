/** What moves cost, term by term: each against the rule that it states, worked out by hand. */
import { describe, expect, test } from 'vitest';
import type { FingerMove, Touch } from '../../../src/fingering/grip.ts';
import { crossing } from '../../../src/fingering/terms/crossing.ts';
import { crossedFingers, fingerOrder, substitution } from '../../../src/fingering/terms/finger-order.ts';
import { guideFinger } from '../../../src/fingering/terms/guide-finger.ts';
import { landing } from '../../../src/fingering/terms/landing.ts';
import { pairSpread } from '../../../src/fingering/terms/pair-spread.ts';
import { reentrantString } from '../../../src/fingering/terms/reentrant-string.ts';
import { stopsRinging } from '../../../src/fingering/terms/ringing.ts';
import { hop, roll, slide } from '../../../src/fingering/terms/same-finger.ts';
import { shiftCount, shiftDistance } from '../../../src/fingering/terms/shift.ts';
import { slurBreak } from '../../../src/fingering/terms/slur-break.ts';
import { between, CHORDS, DOWN, grip, guitar, MELODIC, mandolin, mm, UP, ukulele } from './touches.ts';

describe('two notes with one finger', () => {
  test('are a slide, a roll or a hop: one of the three, unless the place is the same', () => {
    const all = [1, 2].flatMap(string =>
      [1, 2, 3].flatMap(fret => ([1, 2, 3, 4] as const).map((finger): Touch => ({ string, fret, finger }))),
    );
    for (const a of all) {
      for (const b of all) {
        const [slid, rolled, hopped] = [slide, roll, hop].map(term => term.measure(a, b, MELODIC, guitar));
        const elsewhere = a.string !== b.string || a.fret !== b.fret;
        expect(slid! + rolled! + hopped!).toBe(a.finger === b.finger && elsewhere ? 1 : 0);
        if (slid) expect(a.string).toBe(b.string);
        if (rolled) expect(a.fret).toBe(b.fret);
        if (hopped) expect(a.string === b.string || a.fret === b.fret).toBe(false);
      }
    }
  });

  test('on open strings are none', () => {
    for (const term of [slide, roll, hop]) expect(between(term, '1/0 > 2/0')).toBe(0);
  });
});

describe('fingers do not pass each other', () => {
  test.each([
    ['3/5[2] > 3/4[3]', 1],
    ['3/4[3] > 2/5[2]', 1],
    ['3/5[2] > 3/6[3]', 0],
    ['3/5[3] > 3/5[2]', 0],
    ['3/5[2] > 2/4[2]', 0],
    ['3/0 > 3/4[3]', 0],
    ['3/4[3] > 3/0', 0],
  ])('%s: %i', (text, expected) => {
    expect(between(crossedFingers, text)).toBe(expected);
    for (const move of [UP, DOWN, CHORDS]) expect(between(crossedFingers, text, move)).toBe(0);
  });

  test.each([
    // String 4 lies nearer the ceiling than string 1: there the stronger finger belongs.
    ['4/5[2] > 3/5[1]', 1],
    ['3/5[1] > 4/5[2]', 1],
    ['4/5[1] > 3/5[2]', 0],
    ['4/5[2] > 3/6[1]', 0],
    ['4/5[2] > 4/5[1]', 0],
    ['4/5[2] > 3/5[2]', 0],
  ])('at one fret the stronger finger takes the lower string: %s: %i', (text, expected) => {
    expect(between(fingerOrder, text)).toBe(expected);
    expect(between(fingerOrder, text, UP)).toBe(expected);
    expect(between(fingerOrder, text, CHORDS)).toBe(0);
  });

  test('open strings have no order', () => {
    expect(between(fingerOrder, '1/0 > 2/0')).toBe(0);
    const open: Touch = { string: 4, fret: 0, finger: 0 };
    expect(fingerOrder.measure({ string: 3, fret: 0, finger: 1 }, open, MELODIC, guitar)).toBe(0);
    expect(
      fingerOrder.measure({ ...open, string: 2 }, { string: 1, fret: 0, finger: 1 }, MELODIC, guitar),
    ).toBe(0);
  });

  test('a repeated note keeps its finger', () => {
    expect(between(substitution, '3/5[1] > 3/5[2]')).toBe(1);
    expect(between(substitution, '3/5[1] > 3/5[1]')).toBe(0);
    expect(between(substitution, '3/5[1] > 3/6[2]')).toBe(0);
    expect(between(substitution, '3/5[1] > 2/5[2]')).toBe(0);
  });
});

describe('shifts', () => {
  test('are counted and measured in haste; a hand that stays pays nothing', () => {
    expect(shiftCount.measure(3, 5, 2, guitar)).toBe(2);
    expect(shiftCount.measure(5, 5, 2, guitar)).toBe(0);
    expect(shiftDistance.measure(3, 5, 0.5, guitar)).toBeCloseTo(mm(3, 5) / 2, 9);
    expect(shiftDistance.measure(5, 3, 2, guitar)).toBeCloseTo(2 * mm(3, 5), 9);
    expect(shiftDistance.measure(5, 5, 2, guitar)).toBe(0);
  });

  test('are guided by a finger that keeps its string', () => {
    for (const move of [UP, DOWN]) {
      expect(between(guideFinger, '3/2[1] > 3/5[1]', move)).toBe(1);
      expect(between(guideFinger, '3/2[1] > 3/2[1]', move)).toBe(0);
      expect(between(guideFinger, '3/2[1] > 3/5[2]', move)).toBe(0);
      expect(between(guideFinger, '3/2[1] > 2/5[1]', move)).toBe(0);
      expect(between(guideFinger, '3/0 > 3/5[1]', move)).toBe(0);
    }
    const open = (fret: number): Touch => ({ string: 3, fret, finger: 0 });
    expect(guideFinger.measure(open(0), open(1), UP, guitar)).toBe(0);
    expect(between(guideFinger, '3/2[1] > 3/5[1]')).toBe(0);
  });

  test('land on the first finger upwards, on the fourth downwards', () => {
    const landed = (move: FingerMove) => [1, 2, 3, 4].map(b => between(landing, `3/5[1] > 2/7[${b}]`, move));
    expect(landed(UP)).toEqual([0, 1, 2, 3]);
    expect(landed(DOWN)).toEqual([3, 2, 1, 0]);
    expect(landed(MELODIC)).toEqual([0, 0, 0, 0]);
    expect(landed({ ...CHORDS, shift: 1 })).toEqual([0, 0, 0, 0]);
    // An open string is no landing; a guide finger leads instead.
    expect(between(landing, '3/5[1] > 2/0', DOWN)).toBe(0);
    expect(between(landing, '3/5[2] > 3/7[2]', UP)).toBe(0);
  });
});

describe('spread between fingers that play in a row', () => {
  test.each([
    // 41 mm are no effort for index and middle finger; they stand a fret apart by themselves.
    ['3/1[1] > 2/4[2]', mm(1, 4) - 41],
    ['2/4[2] > 3/1[1]', mm(1, 4) - 41],
    ['3/1[1] > 3/2[2]', 0],
    // 69 for index and ring finger, 27 for middle and ring finger, which counts twice.
    ['3/1[1] > 2/5[3]', mm(1, 5) - 69],
    ['3/1[2] > 2/3[3]', 2 * (mm(1, 3) - 27)],
    ['3/3[3] > 2/1[2]', 2 * (mm(1, 3) - 27)],
    // Index and little finger also add up to five; they are not the pair to protect.
    ['3/1[1] > 2/6[4]', mm(1, 6) - 110],
    // 41 for ring and little finger: high on the neck three frets are less.
    ['3/1[3] > 2/4[4]', mm(1, 4) - 41],
    ['3/17[3] > 2/20[4]', 0],
    ['3/1[1] > 2/9[1]', 0],
    ['3/0 > 2/9[4]', 0],
    ['2/9[4] > 3/0', 0],
  ])('%s', (text, expected) => {
    expect(between(pairSpread, text)).toBeCloseTo(expected, 9);
    for (const move of [UP, DOWN, CHORDS]) expect(between(pairSpread, text, move)).toBe(0);
  });

  test('is none on the mandolin where fingers stand two frets apart by themselves', () => {
    expect(between(pairSpread, '3/1[1] > 2/4[2]', MELODIC, mandolin)).toBe(0);
    expect(between(pairSpread, '2/4[2] > 3/1[1]', MELODIC, mandolin)).toBe(0);
    expect(between(pairSpread, '3/1[2] > 2/4[3]', MELODIC, mandolin)).toBe(0);
    const wide = 352.4 * (2 ** (-1 / 12) - 2 ** (-5 / 12));
    expect(between(pairSpread, '3/1[2] > 2/5[3]', MELODIC, mandolin)).toBeCloseTo(2 * (wide - 27), 9);
  });
});

describe('strings', () => {
  test('crossed are counted, in melodies', () => {
    expect(between(crossing, '4/2[1] > 1/2[2]')).toBe(3);
    expect(between(crossing, '1/0 > 4/2[2]')).toBe(3);
    expect(between(crossing, '1/2[2] > 4/2[1]', CHORDS)).toBe(0);
  });

  test('break a slur between single notes', () => {
    const slurred = { ...MELODIC, slurred: true };
    expect(between(slurBreak, '3/2[1] > 2/2[2]', slurred)).toBe(1);
    expect(between(slurBreak, '3/2[1] > 3/4[3]', slurred)).toBe(0);
    expect(between(slurBreak, '3/2[1] > 2/2[2]')).toBe(0);
    expect(between(slurBreak, '3/2[1] > 2/2[2]', { ...CHORDS, slurred: true })).toBe(0);
  });

  test('do not ring on where the next note is on them', () => {
    expect(between(stopsRinging, '3/2[1] > 3/4[3]')).toBe(1);
    expect(between(stopsRinging, '3/2[1] > 3/2[1]')).toBe(0);
    expect(between(stopsRinging, '3/2[1] > 2/4[3]')).toBe(0);
  });

  test('that are re-entrant are not for single notes', () => {
    const measured = (text: string) => reentrantString.measure(grip(text, 1), ukulele);
    expect(['4/2[2]', '3/2[2]', '4/2[2] 3/2[3]'].map(measured)).toEqual([1, 0, 0]);
    expect(reentrantString.measure(grip('4/2[2]', 1), guitar)).toBe(0);
  });
});
