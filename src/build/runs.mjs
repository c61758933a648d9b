/**
 * What the build has the program do on the examples, to learn which scripts are loaded together (pack.mjs) and
 * to have V8 compile them (compile.mjs): first what starts most often.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../../', import.meta.url));
const TUNE = `${root}examples/tunes/amazing-grace.musicxml`;
const LESSON = `${root}examples/lessons/frets-4-to-8.yaml`;

const ARRANGE = ['arrange', TUNE, '-i', 'ukulele,ukulele-low-g', '-f', '4-8', '--no-config', '--quiet'];

/** The command lines, given a folder for what they write. */
const runsIn = out => [
  ['--version'],
  ARRANGE,
  [...ARRANGE, '--to', 'svg', '--out', join(out, 'svg')],
  ...['pdf', 'musicxml,mxl', 'midi', 'json'].map(format => [
    ...ARRANGE,
    '--to',
    format,
    '--out',
    join(out, format),
  ]),
  // An archive, which is read otherwise than a plain file.
  ['inspect', join(out, 'musicxml,mxl', 'amazing-grace.ukulele.mxl')],
  ['lesson', LESSON, '--quiet', '--out', join(out, 'lesson')],
];

/**
 * Runs each with the program's `main`, and calls `after` when it has ended. Throws an Error if one fails, since then
 * the build is no good.
 */
export async function runAll(main, after = () => {}) {
  const out = mkdtempSync(join(tmpdir(), 'fretward-build-'));
  try {
    for (const argv of runsIn(out)) {
      const status = await main(argv);
      if (status !== 0) throw new Error(`fretward ${argv.join(' ')} ended with ${status}`);
      after();
    }
  } finally {
    rmSync(out, { recursive: true });
  }
}
