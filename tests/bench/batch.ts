/**
 * How fast many tunes are made, and how much memory they take, in one run: `npm run bench`. Nothing is asserted.
 * 500 files of the corpus beside the project, or else of the examples, to sheets of two kinds.
 */
import { copyFileSync, mkdirSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { decodeXml } from '../../src/read/decode.ts';
import { unpackScore } from '../../src/read/unpack.ts';
import { inFolder, line, median, PROGRAM, usage, wall } from './run.ts';
import { tuneFiles } from './tunes.ts';

const TUNES = 500;

/** Puts so many copies into a folder. */
function copies(folder: string, count: number): string {
  mkdirSync(folder);
  const files = tuneFiles();
  for (let n = 0; n < count; n++) {
    const { path, name } = files[n % files.length]!;
    copyFileSync(path, join(folder, `${String(n).padStart(3, '0')}-${name}`));
  }
  return folder;
}

/** Seconds of all processors to read the tokens of files, by code that has not run before, as in a batch. */
function tokenising(folder: string): number {
  const documents = readdirSync(folder).map(name => unpackScore(readFileSync(join(folder, name)), 1e9));
  const start = process.cpuUsage();
  for (const bytes of documents) {
    const parser = new SaxesParser();
    for (const event of ['opentag', 'closetag', 'text'] as const) parser.on(event, () => {});
    parser.write(decodeXml(bytes)).close();
  }
  const { user, system } = process.cpuUsage(start);
  return (user + system) / 1e6;
}

inFolder(folder => {
  const tunes = copies(join(folder, 'tunes'), TUNES);
  const tenth = copies(join(folder, 'tenth'), TUNES / 10);
  const arrange = (input: string, out: string, jobs: number): string[] =>
    [PROGRAM, 'arrange', input, '-i', 'ukulele-low-g', '-f', '1-12', '--to', 'svg', '-s', 'tab,quiz'].concat([
      ...['--jobs', `${jobs}`, '--out', join(folder, out), '--no-config', '--quiet'],
    ]);
  const tokens = tokenising(tunes);
  const one = usage(arrange(tunes, 'one', 1));
  const two = usage(arrange(tunes, 'two', 2));
  const few = usage(arrange(tenth, 'few', 1));
  const idle = usage(['-e', '0']);
  const node = median(Array.from({ length: 9 }, () => wall(['-e', '0'])));
  const again = median(Array.from({ length: 9 }, () => wall(arrange(tunes, 'one', 1))));

  console.log(`${TUNES} tunes to tab and quiz sheets as SVG:`);
  line('processor time for that of tokenising them (8 is the target)', one.cpu / tokens);
  line(
    'one job for two, wall time (1.7)',
    one.wall / two.wall,
    `${(one.cpu / one.wall).toFixed(2)} processors busy with one`,
  );
  line('memory for that of an idle node (3)', one.memory / idle.memory, `${one.memory.toFixed(0)} MB`);
  line('memory for that of a tenth of the tunes (flat)', one.memory / few.memory);
  line('when all is up to date, for node -e 0 (3)', again / node);
});
