/** Chance: one seed one drill, for ever, and fair dice. */
import { describe, expect, test } from 'vitest';
import { chance } from '../../../src/lesson/drill/random.ts';
import { makeDrill } from '../../../src/lesson/drill.ts';
import { names } from '../../support/lesson.ts';
import { ask, LINEAR, time } from './asked.ts';

describe('chance', () => {
  // Fixed for ever: these values were written down when the generator was made.
  test('a seed gives the same numbers for ever', () => {
    const dice = chance(1);
    expect(Array.from({ length: 8 }, () => dice.below(1000))).toEqual(FIRST_NUMBERS);
  });

  test('a seed gives the same drill for ever', () => {
    expect(names(makeDrill(ask({ seed: 7 }), LINEAR).tune)).toBe(SEVENTH);
    expect(names(makeDrill(ask({ seed: 7, grade: 5, time: time(6, 8) }), LINEAR).tune)).toBe(SEVENTH_HARD);
  });

  test('all numbers are about as likely, and neighbouring seeds differ', () => {
    const dice = chance(42);
    const counts = Array.from({ length: 6 }, () => 0);
    for (let n = 0; n < 60_000; n++) counts[dice.below(6)]!++;
    // Chi-squared with 5 degrees of freedom: 20.5 is passed once in a thousand (table, from memory).
    expect(counts.reduce((sum, each) => sum + (each - 10_000) ** 2 / 10_000, 0)).toBeLessThan(20.5);
    const firsts = new Set(Array.from({ length: 200 }, (_, seed) => chance(seed).below(1_000_000)));
    expect(firsts.size).toBeGreaterThan(195);
  });

  test('weights are kept', () => {
    const dice = chance(3);
    const counts = [0, 0, 0];
    for (let n = 0; n < 40_000; n++) counts[dice.weighted([1, 0, 3])]!++;
    expect(counts[1]).toBe(0);
    expect(counts[2]! / counts[0]!).toBeCloseTo(3, 0);
  });
});

const FIRST_NUMBERS = [669, 836, 762, 850, 400, 989, 619, 833];
const SEVENTH = 'C5 D5 E5 F5 E5 F5 E5 F5 F5 E5 D5 D5 C5 B4 A4 G4 F4 F4 E4 D4 C4 B3 C4 D4 C4 C4';
const SEVENTH_HARD =
  'C5 D5 D4 E4 C4 E4 G4 B3 C4 E4 G4 C5 B4 A♯4 B4 B4 A4 C5 G4 A♭4 G4 G4 B3 C4 G4 F4 C5 B4 A4 A♯4 B4 G4 G♭4 F4 F5 E5 D5 B4 C5';
