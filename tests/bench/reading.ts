/**
 * How fast files are read: time from bytes to Score as a multiple of the time that the XML tokeniser alone
 * takes for the same bytes, in one run: `npm run bench`. Nothing is asserted; the target is 2.2. All tunes of the
 * corpus beside the project, or else the examples, repeated to 10 MB.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { SaxesParser } from 'saxes';
import { decodeXml } from '../../src/read/decode.ts';
import { readScore } from '../../src/read/read.ts';
import { unpackScore } from '../../src/read/unpack.ts';

const BYTES = 1e7;
const RUNS = 7;

const folder = ['../shared/corpus/tunes', 'examples/tunes'].find(path => {
  try {
    return readdirSync(path).length > 0;
  } catch {
    return false;
  }
})!;
const documents = readdirSync(folder)
  .filter(name => /\.(mxl|xml|musicxml)$/.test(name))
  .sort()
  .map(name => unpackScore(readFileSync(`${folder}/${name}`), 1e9));
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
const ratios = Array.from({ length: RUNS }, () => time(readScore) / time(tokenise)).sort((a, b) => a - b);
const size = ((once * files.length) / documents.length / 1e6).toFixed(1);
const line = (what: string, ratio: number): void =>
  console.log(`${what.padEnd(64)}${ratio.toFixed(2).padStart(9)} ×`);

console.log(`Reading ${files.length} files, ${size} MB, for tokenising them (2.2 is the target):`);
line(`median of ${RUNS} runs`, ratios[RUNS >> 1]!);
line('the first time, with code that has not run yet', first.reading / first.tokenising);
