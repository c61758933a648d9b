/**
 * Joins the built program's scripts in packs for src/start/load.ts: one for what each run needs beyond those
 * before it, and one for every script that none of them needs. It runs in a process of its own.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { runAll } from './runs.mjs';

const dist = fileURLToPath(new URL('../../dist/', import.meta.url));
const require = createRequire(dist);
const { CONTENTS, PACKS } = require('./load.cjs');

const scripts = readdirSync(dist).filter(name => name.endsWith('.cjs') && name !== 'load.cjs');
const packs = [];

/** Packs what was loaded since the last time, in that order. */
const packLoaded = () => {
  const known = new Set(packs.flat());
  const loaded = Object.keys(require.cache).map(path => basename(path));
  const names = loaded.filter(name => scripts.includes(name) && !known.has(name));
  if (names.length > 0) packs.push(names);
};

await runAll(require('./main.cjs').main, packLoaded);
const packed = new Set(packs.flat());
packs.push(...scripts.filter(name => !packed.has(name)).map(name => [name]));

mkdirSync(PACKS, { recursive: true });
const contents = Object.fromEntries(packs.flatMap((names, i) => names.map(name => [name, String(i)])));
for (const [i, names] of packs.entries()) {
  const members = names.map(name => `${JSON.stringify(name)}:${functionOf(name)}`);
  writeFileSync(join(PACKS, `${i}.cjs`), `({${members.join(',\n')}})`);
}
writeFileSync(join(PACKS, CONTENTS), JSON.stringify(contents));

/**
 * A script as the function that Node would make of it: an expression without its last semicolon, in ASCII, which
 * is read soonest (outside ASCII esbuild leaves only what stands in regular expressions).
 */
function functionOf(name) {
  const script = Module.wrap(readFileSync(join(dist, name), 'utf8'));
  return script
    .replace(/;$/, '')
    .replaceAll(/[^\0-\x7f]/g, unit => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`);
}
