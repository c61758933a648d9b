/**
 * Loads the built program's scripts. V8 spends most of a short command's time on compiling; so the build joins
 * the scripts that a command loads together in packs (src/build/pack.mjs), and leaves with each what V8 made of
 * it (src/build/compile.mjs), for the very Node that it ran on. Another Node loads each script by itself,
 * compiles as usual, and from 22.8 on keeps a cache of its own.
 */
import { readFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';

type Exports = Record<string, unknown>;

/** A script as a function of what Node gives to scripts. */
type Wrapped = (
  exports: Exports,
  require: (id: string) => unknown,
  module: { exports: Exports },
  filename: string,
  dirname: string,
) => void;

/** One pack's script gives its members by name. */
type Pack = Readonly<Record<string, Wrapped>>;

const DIST = dirname(fileURLToPath(import.meta.url));

/** Where the packs lie: `0.cjs` and its code, and so on. Compiled code fits one version, system and processor. */
export const PACKS: string = join(DIST, 'code', `${process.version}-${process.platform}-${process.arch}`);

/** The file among them that says in which pack each script lies. */
export const CONTENTS = 'contents.json';

const nodeRequire = createRequire(import.meta.url);
const modules = new Map<string, { exports: Exports }>();
const packs = new Map<string, { readonly script: Script; readonly members: Pack }>();

type Load = (name: string) => Exports;

let loader: Load | undefined;

/** What the script of that name in the folder of the built program exports. */
export const load = (name: string): Exports => {
  loader ??= packed() ?? plainly();
  return loader(name);
};

/** The code of every pack that was opened, as V8 has it now. */
export const compiled = (): ReadonlyMap<string, Buffer> =>
  new Map([...packs].map(([pack, { script }]) => [pack, script.createCachedData()]));

/** Loads from packs, if there are any for this Node. */
function packed(): Load | undefined {
  const text = optional(join(PACKS, CONTENTS));
  if (!text) return undefined;
  const contents = JSON.parse(text.toString()) as Readonly<Record<string, string>>;
  const run = (name: string): Exports => {
    const known = modules.get(name);
    if (known) return known.exports;
    const module = { exports: {} };
    modules.set(name, module);
    membersOf(contents[name]!)[name]!(module.exports, requireFrom, module, join(DIST, name), DIST);
    return module.exports;
  };
  const requireFrom = (id: string): unknown => (id.startsWith('./') ? run(id.slice(2)) : nodeRequire(id));
  return run;
}

/** Opens a pack once, with its compiled code where there is some that V8 accepts. */
function membersOf(pack: string): Pack {
  let opened = packs.get(pack);
  if (!opened) {
    const filename = join(PACKS, `${pack}.cjs`);
    const cachedData = optional(join(PACKS, `${pack}.code`));
    const script = new Script(readFileSync(filename, 'latin1'), {
      filename,
      ...(cachedData && { cachedData }),
    });
    opened = { script, members: script.runInThisContext() as Pack };
    packs.set(pack, opened);
  }
  return opened.members;
}

function optional(path: string): Buffer | undefined {
  try {
    return readFileSync(path);
  } catch {
    return undefined;
  }
}

function plainly(): Load {
  (Module as { enableCompileCache?: () => unknown }).enableCompileCache?.();
  return name => nodeRequire(`./${name}`) as Exports;
}
