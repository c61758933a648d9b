/**
 * Loads the built program's scripts. V8 spends most of a short command's time on compiling; so the build
 * leaves beside each script what V8 made of it (src/build/compile.mjs), for the very Node that it ran on. Another Node
 * compiles as usual, and from 22.8 on keeps a cache of its own.
 */
import { existsSync, readFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

type Exports = Record<string, unknown>;

const DIST = dirname(fileURLToPath(import.meta.url));

/** Compiled code fits one version, system and processor. */
export const CODE_CACHE: string = join(
  DIST,
  'code',
  `${process.version}-${process.platform}-${process.arch}`,
);

const nodeRequire = createRequire(import.meta.url);
const modules = new Map<string, { exports: Exports }>();
const scripts = new Map<string, Script>();

let loader: ((name: string) => Exports) | undefined;

/** What the script of that name in the folder of the built program exports. */
export const load = (name: string): Exports => {
  loader ??= existsSync(CODE_CACHE) ? run : plainly();
  return loader(name);
};

/** The code of every script that was run, as V8 has it now, by the script's name. */
export const compiled = (): ReadonlyMap<string, Buffer> =>
  new Map([...scripts].map(([name, script]) => [name, script.createCachedData()]));

/** Runs a script once, with its compiled code where there is some that V8 accepts. */
function run(name: string): Exports {
  const known = modules.get(name);
  if (known) return known.exports;
  const module = { exports: {} };
  modules.set(name, module);
  const filename = join(DIST, name);
  const cachedData = codeOf(name);
  const script = new Script(Module.wrap(readFileSync(filename, 'utf8')), {
    filename,
    ...(cachedData && { cachedData }),
  });
  scripts.set(name, script);
  script.runInThisContext()(module.exports, requireFrom, module, filename, DIST);
  return module.exports;
}

const requireFrom = (id: string): unknown => (id.startsWith('./') ? run(id.slice(2)) : nodeRequire(id));

function codeOf(name: string): Buffer | undefined {
  try {
    return readFileSync(join(CODE_CACHE, name));
  } catch {
    return undefined;
  }
}

function plainly(): (name: string) => Exports {
  (Module as { enableCompileCache?: () => unknown }).enableCompileCache?.();
  return name => nodeRequire(`./${name}`);
}
