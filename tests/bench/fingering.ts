/**
 * How fast fingering is, as ratios within one run: `npm run bench`. Nothing is asserted; times depend on the
 * machine, which is named.
 */
import { cpus } from 'node:os';
import { arrange } from '../../src/fingering/arrange.ts';
import { problemOf, solveProblem } from '../../src/fingering/problem.ts';
import { type Rules, rulesFrom, wholeTune } from '../../src/fingering/rules.ts';
import { solve } from '../../src/fingering/solver.ts';
import { strikesOf } from '../../src/fingering/strikes.ts';
import { survey, TRANSPOSITIONS, windowsOf } from '../../src/fingering/survey.ts';
import { INSTRUMENTS } from '../../src/instrument/catalogue.ts';
import type { Tune } from '../../src/score/tune.ts';
import { DIVISION } from '../support/melody.ts';
import { walk } from './walk.ts';

const instrument = (id: string) => INSTRUMENTS.find(each => each.id === id)!;

/** Median of some runs, ms. */
const time = (act: () => unknown, runs = 7): number => {
  act();
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    act();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(runs / 2)]!;
};

const FREE: Partial<Rules> = { repeats: 'free' };
const WINDOW: Partial<Rules> = { ...FREE, windows: wholeTune(4, 8) };

const print = (what: string, ratio: number, unit: string): void =>
  console.log(`${what.padEnd(64)}${ratio.toFixed(2).padStart(9)} ${unit}`);

const [cpu] = cpus();
console.log(`${cpu?.model ?? 'unknown processor'}, ${cpus().length} cores, Node ${process.version}\n`);

/** ms a note in the solver's two passes. */
const solving = (tune: Tune, id: string, said: Partial<Rules>): number => {
  const { lattice, strikes } = problemOf(tune, instrument(id), rulesFrom(said));
  return time(() => solve(lattice)) / strikes.length;
};

const base = solving(walk(10_000, 60, 10), 'ukulele', WINDOW);
print('solving a note, ukulele in a window', 1, '(the measure of these)');
print(
  'solving a note, ukulele on the whole neck',
  solving(walk(10_000, 60, 10), 'ukulele', FREE) / base,
  '×',
);
print('solving a note, guitar on the whole neck', solving(walk(3_000, 52, 14), 'guitar', FREE) / base, '×');
print('solving a note, guitar with chords', solving(walk(1_000, 52, 14, true), 'guitar', FREE) / base, '×');

const windowed = (notes: number) =>
  problemOf(walk(notes, 60, 10), instrument('ukulele'), rulesFrom(WINDOW)).lattice;
const [short, long] = [windowed(1_000), windowed(100_000)];
const shortTime =
  time(() => {
    for (let n = 0; n < 20; n++) solve(short);
  }, 15) / 20;
const longTime = time(() => solve(long), 9);
print('solving 100,000 notes for 1,000 (100 would be linear)', longTime / shortTime, '×');

const tune = walk(1_000, 60, 10);
const whole = time(() => arrange(tune, instrument('ukulele'), rulesFrom(WINDOW)));
const problem = problemOf(tune, instrument('ukulele'), rulesFrom(WINDOW));
print('share of the solver in arranging 1,000 notes', (100 * time(() => solveProblem(problem))) / whole, '%');

const hundred = walk(100, 60, 10);
const { strikes } = strikesOf(hundred);
const range = { windows: windowsOf(instrument('ukulele'), 5), transpositions: TRANSPOSITIONS };
const all = range.windows.length * range.transpositions.length;
const surveyed = time(() => survey(strikes, DIVISION, instrument('ukulele'), rulesFrom(WINDOW), range));
const single = time(() => arrange(hundred, instrument('ukulele'), rulesFrom(WINDOW)), 25);
print(
  `surveying 100 notes in ${all} windows and keys for as many arrangings`,
  surveyed / (single * all),
  '×',
);
const ten = walk(10_000, 60, 10);
const alike = { ...WINDOW, repeats: 'same' } as const;
const [tied, free] = [alike, WINDOW].map(said => {
  const asked = problemOf(ten, instrument('ukulele'), rulesFrom(said));
  return time(() => solveProblem(asked), 3);
});
print('solving 10,000 notes with repeats alike, for each passage free', tied! / free!, '×');

console.log('\nFor information, on this machine:');
print('solving 100,000 notes of ukulele melody in a window', longTime, 'ms');
print('the survey', surveyed, 'ms');
