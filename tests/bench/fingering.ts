/**
 * How fast fingering is, as ratios within one run: `npm run bench`. Nothing is asserted; times depend on the
 * machine, which is named.
 */
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

/** The least processor time of some runs, ms: what else the machine does can only add to it. */
const time = (act: () => unknown, runs = 15): number => {
  act();
  let least = Infinity;
  for (let run = 0; run < runs; run++) {
    const start = process.cpuUsage();
    act();
    const { user, system } = process.cpuUsage(start);
    least = Math.min(least, (user + system) / 1000);
  }
  return least;
};

const UKULELE = { low: 60, top: 10 };
const GUITAR = { low: 52, top: 14 };

const FREE: Partial<Rules> = { repeats: 'free' };
const WINDOW: Partial<Rules> = { ...FREE, windows: wholeTune(4, 8) };

const print = (what: string, ratio: number, unit: string): void =>
  console.log(`${what.padEnd(64)}${ratio.toFixed(2).padStart(9)} ${unit}`);

/** ms a note in the solver's two passes. */
const solving = (tune: Tune, id: string, said: Partial<Rules>): number => {
  const { lattice, strikes } = problemOf(tune, instrument(id), rulesFrom(said));
  return time(() => solve(lattice)) / strikes.length;
};

const base = solving(walk(10_000, UKULELE), 'ukulele', WINDOW);
print('solving a note, ukulele in a window', 1, '(the measure of these)');
print(
  'solving a note, ukulele on the whole neck',
  solving(walk(10_000, UKULELE), 'ukulele', FREE) / base,
  '×',
);
print('solving a note, guitar on the whole neck', solving(walk(3_000, GUITAR), 'guitar', FREE) / base, '×');
print(
  'solving a note, guitar with chords',
  solving(walk(1_000, { ...GUITAR, chords: true }), 'guitar', FREE) / base,
  '×',
);

/** A walk of 1,000 notes so many times over: as much to choose from at every note, however long it is. */
const windowed = (times: number) =>
  problemOf(walk(1_000, { ...UKULELE, times }), instrument('ukulele'), rulesFrom(WINDOW)).lattice;
const [short, long] = [windowed(1), windowed(100)];
// As much work in both, by turns, so that the machine treats them alike.
let [shortTime, longTime] = [Infinity, Infinity];
for (let turn = 0; turn < 10; turn++) {
  const hundred = time(() => {
    for (let n = 0; n < 100; n++) solve(short);
  }, 2);
  shortTime = Math.min(shortTime, hundred / 100);
  longTime = Math.min(
    longTime,
    time(() => solve(long), 2),
  );
}
print('solving 100,000 notes for 1,000 (100 would be linear)', longTime / shortTime, '×');

const tune = walk(1_000, UKULELE);
const whole = time(() => arrange(tune, instrument('ukulele'), rulesFrom(WINDOW)));
const problem = problemOf(tune, instrument('ukulele'), rulesFrom(WINDOW));
print('share of the solver in arranging 1,000 notes', (100 * time(() => solveProblem(problem))) / whole, '%');

const hundred = walk(100, UKULELE);
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
const ten = walk(10_000, UKULELE);
const alike = { ...WINDOW, repeats: 'same' } as const;
const [tied, free] = [alike, WINDOW].map(said => {
  const asked = problemOf(ten, instrument('ukulele'), rulesFrom(said));
  return time(() => solveProblem(asked), 3);
});
print('solving 10,000 notes with repeats alike, for each passage free', tied! / free!, '×');

console.log('\nFor information, on this machine:');
print('solving 100,000 notes of ukulele melody in a window', longTime, 'ms');
print('the survey', surveyed, 'ms');
