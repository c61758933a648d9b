/**
 * How fast engraving is: time a page as a multiple of the time it takes to write that page as SVG, in one
 * run: `npm run bench`. Nothing is asserted; the target is 8. The examples, and a long melody of several pages.
 */
import { readFileSync } from 'node:fs';
import { pageToSvg } from '../../src/emit/svg.ts';
import { engrave } from '../../src/engrave/engrave.ts';
import { arrange } from '../../src/fingering/arrange.ts';
import { rulesFrom } from '../../src/fingering/rules.ts';
import { findInstrument } from '../../src/instrument/define.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { walk } from './walk.ts';

/** Best of some runs after as many to warm up, ms: what the work takes where nothing else disturbs it. */
const time = (act: () => unknown, runs = 40): number => {
  for (let run = 0; run < runs; run++) act();
  const times = Array.from({ length: runs }, () => {
    const start = performance.now();
    act();
    return performance.now() - start;
  });
  return Math.min(...times);
};

const example = (name: string): Tune =>
  chooseMelody(readScore(readFileSync(`examples/tunes/${name}.musicxml`)).score, { chords: 'top' }).tune;

function compare(what: string, tune: Tune): void {
  const { arrangement } = arrange(tune, findInstrument('ukulele-low-g'), rulesFrom({ repeats: 'free' }));
  const { pages } = engrave(tune, arrangement, { sheet: 'tab' });
  // Of an arrangement that was engraved, the layout is known: each run gets one of its own.
  const engraving = time(() => engrave(tune, { ...arrangement }, { sheet: 'tab' })) / pages.length;
  const writing = time(() => pages.map(pageToSvg)) / pages.length;
  const ratio = (engraving / writing).toFixed(2).padStart(9);
  const each = `${engraving.toFixed(2)} for ${writing.toFixed(2)} ms a page`;
  console.log(`${what.padEnd(64)}${ratio} × (${each})`);
}

console.log('Engraving a page for writing it as SVG (8 is the target):');
for (const name of ['amazing-grace', 'michael-row-the-boat-ashore', 'row-row-row-your-boat'])
  compare(name, example(name));
compare('a melody of 600 notes', walk(600, { low: 60, top: 10 }));
