/**
 * Runs the built program on the examples, and keeps what V8 compiled on the way for src/start/load.ts: all
 * formats, a lesson, and what is printed. It runs in a process of its own.
 */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { setFlagsFromString } from 'node:v8';

const root = fileURLToPath(new URL('../../', import.meta.url));
const TUNE = `${root}examples/tunes/amazing-grace.musicxml`;
const LESSON = `${root}examples/lessons/frets-4-to-8.yaml`;

// V8 would drop what has not run for a while. The code is stamped with the flags, so they are put back.
setFlagsFromString('--no-flush-bytecode');
const { CODE_CACHE, compiled, load } = await import(`${root}dist/load.cjs`);
mkdirSync(CODE_CACHE, { recursive: true });

const out = mkdtempSync(join(tmpdir(), 'fretward-compile-'));
try {
  const { main } = load('main.cjs');
  const arrange = ['arrange', TUNE, '-i', 'ukulele,ukulele-low-g', '-f', '4-8', '--no-config', '--quiet'];
  for (const argv of [
    [...arrange, '--to', 'text,svg,pdf,musicxml,mxl,midi,json', '--out', join(out, 'tune')],
    ['lesson', LESSON, '--quiet', '--out', join(out, 'lesson')],
  ]) {
    const status = await main(argv);
    if (status !== 0) throw new Error(`fretward ${argv.join(' ')} ended with ${status}`);
  }
} finally {
  rmSync(out, { recursive: true });
}

setFlagsFromString('--flush-bytecode');
for (const [name, code] of compiled()) writeFileSync(join(CODE_CACHE, name), code);
