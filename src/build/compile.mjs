/**
 * Runs the built program on the examples, and keeps what V8 compiled on the way for src/start/load.ts. It runs in a
 * process of its own.
 */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runAll } from './runs.mjs';

// V8 would drop what has not run for a while. The code is stamped with the flags, so they are put back.
setFlagsFromString('--no-flush-bytecode');
const { PACKS, compiled, load } = await import('../../dist/load.cjs');
await runAll(load('main.cjs').main);
setFlagsFromString('--flush-bytecode');
for (const [pack, code] of compiled()) writeFileSync(join(PACKS, `${pack}.code`), code);
