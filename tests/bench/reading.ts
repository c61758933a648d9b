/**
 * How fast files are read: time from bytes to Score as a multiple of the time that the XML tokeniser alone
 * takes for the same bytes, in one run: `npm run bench`. Nothing is asserted; the target is 2.2. All tunes of the
 * corpus beside the project, or else the examples, repeated to 10 MB.
 */
import { readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { decodeXml } from '../../src/read/decode.ts';
import { readScore } from '../../src/read/read.ts';
import { unpackScore } from '../../src/read/unpack.ts';
import { line, median } from './run.ts';
import { tuneFiles } from './tunes.ts';

const BYTES = 1e7;
const RUNS = 15;

const documents = tuneFiles().map(({ path }) => unpackScore(readFileSync(path), 1e9));
const once = documents.reduce((sum, { length }) => sum + length, 0);
const files = Array.from({ length: Math.ceil(BYTES / once) }, () => documents).flat();

const tokenise = (bytes: Uint8Array): void => {
  const parser = new SaxesParser();
  const ignore = (): void => {};
  for (const event of ['opentag', 'closetag', 'text'] as const) parser.on(event, ignore);
  parser.write(decodeXml(bytes)).close();
};

const time = (act: (bytes: Uint8Array) => unknown): number => {
  const start = performance.now();
  for (const bytes of files) act(bytes);
  return performance.now() - start;
};

const first = { reading: time(readScore), tokenising: time(tokenise) };
// Each run compares neighbours in time: a machine that is slow for a while is slow for both.
const ratios = Array.from({ length: RUNS }, () => time(readScore) / time(tokenise));
const size = ((once * files.length) / documents.length / 1e6).toFixed(1);
console.log(`Reading ${files.length} files, ${size} MB, for tokenising them (2.2 is the target):`);
line(`median of ${RUNS} runs`, median(ratios));
line('the first time, with code that has not run yet', first.reading / first.tokenising);
