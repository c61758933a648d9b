/**
 * How fast commands start: wall time as a multiple of that of `node -e 0`, in one run: `npm run bench`. Nothing is
 * asserted; the targets are 1.3, 2.2 and 2.8. All are run in turn, so that a machine that is slow for a while
 * is slow for all; the medians are compared.
 */
import { readFileSync } from 'node:fs';
import { readScore } from '../../src/read/read.ts';
import { inFolder, line, median, PROGRAM, wall } from './run.ts';
import { tuneFiles } from './tunes.ts';

const RUNS = 25;

/** The first of the tunes that comes nearest to 30 measures. */
function shortTune(): string {
  const farFrom30 = ({ path }: { readonly path: string }): number => {
    const { parts } = readScore(readFileSync(path)).score;
    return Math.abs(parts[0]!.measures.length - 30);
  };
  return [...tuneFiles()].sort((a, b) => farFrom30(a) - farFrom30(b))[0]!.path;
}

const ARRANGE = [
  PROGRAM,
  'arrange',
  shortTune(),
  '-i',
  'ukulele-low-g',
  '-f',
  '4-8',
  '--no-config',
  '--quiet',
];

inFolder(out => {
  const commands = {
    'node -e 0': ['-e', '0'],
    'fretward --version (1.3 is the target)': [PROGRAM, '--version'],
    'arrange a short tune to text (2.2)': ARRANGE,
    'arrange it to two SVG sheets (2.8)': [...ARRANGE, '--to', 'svg', '--out', out, '--force'],
  };
  const names = Object.keys(commands) as (keyof typeof commands)[];
  const rounds = Array.from({ length: RUNS }, () => names.map(name => wall(commands[name])));
  const medians = names.map((_, i) => median(rounds.map(round => round[i]!)));
  console.log(`Starting, for node -e 0 (${(1000 * medians[0]!).toFixed(0)} ms), medians of ${RUNS} runs:`);
  for (const [i, name] of names.entries()) if (i > 0) line(name, medians[i]! / medians[0]!);
});
