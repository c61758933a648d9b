/**
 * Builds the command and the library: takes glyph outlines and font tables out of the fonts (glyphs.mjs), then
 * bundles `src/cli/main.ts` and `src/index.ts` into dist/. Start-up is one small file; what a command needs
 * beyond it lies in scripts that are loaded when they are used, and that the library shares. Last, they are packed
 * (pack.mjs) and compiled (compile.mjs), for src/start/load.ts to find.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { writeNotice } from './notice.mjs';
import { refuseCircles, scriptOf } from './script.mjs';
import { takeTypefaces } from './typefaces.mjs';
import { writeTypes } from './types.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

if (existsSync(new URL('./glyphs.mjs', import.meta.url))) {
  const { takeGlyphs } = await import('./glyphs.mjs');
  await takeGlyphs(root);
}
await takeTypefaces(root);

const common = {
  absWorkingDir: root,
  outdir: 'dist',
  bundle: true,
  minify: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  legalComments: 'none',
  logLevel: 'warning',
};

const { metafile, outputFiles } = await build({
  ...common,
  // The start-up file, what a worker thread runs, and the library.
  entryPoints: { main: 'src/cli/main.ts', worker: 'src/batch/worker.ts', library: 'src/index.ts' },
  outExtension: { '.js': '.cjs' },
  splitting: true,
  write: false,
  // A rasteriser is a native library, and a pool starts threads from files of its own; everything else is bundled.
  external: ['@resvg/resvg-js', 'tinypool'],
  // musicxml-interfaces is given a DOMParser of ours (src/read/xml/dom-parser.ts): xmldom need not be loaded.
  // It and commander would start other programs, which nothing here asks of them; fontkit would unpack WOFF2,
  // which src/cli/font.ts refuses (the unpacker is larger than all the rest of fontkit).
  // pdfkit's build for browsers packs with fflate: the same bytes on every machine, as zlib's are not.
  alias: {
    '@xmldom/xmldom': `${root}src/build/nothing.cjs`,
    child_process: `${root}src/build/nothing.cjs`,
    'node:child_process': `${root}src/build/nothing.cjs`,
    'brotli/decompress.js': `${root}src/build/nothing.cjs`,
    pdfkit: `${root}node_modules/pdfkit/js/pdfkit.browser.mjs`,
  },
  // What was made by another build is out of date.
  define: { 'process.env.FRETWARD_BUILD': JSON.stringify(fingerprint()) },
  metafile: true,
});

refuseCircles(metafile.outputs);
rmSync(`${root}dist/code`, { recursive: true, force: true });
mkdirSync(`${root}dist`, { recursive: true });
for (const { path, text } of outputFiles) writeFileSync(path, scriptOf(text));
const [loader] = (await build({ ...common, entryPoints: ['src/start/load.ts'], write: false })).outputFiles;
const library = Object.values(metafile.outputs).find(({ entryPoint }) => entryPoint === 'src/index.ts');
const small = {
  'load.cjs': scriptOf(loader.text),
  'worker.js': "import { load } from './load.cjs';\nexport default load('worker.cjs').default;\n",
  'index.js': `import library from './library.cjs';\nexport const { ${library.exports.sort().join(', ')} } = library;\n`,
};
for (const [name, text] of Object.entries(small)) writeFileSync(`${root}dist/${name}`, text);

// Files of an earlier build go last, so that a command which starts meanwhile finds all that it needs.
const made = new Set([
  ...Object.keys(metafile.outputs),
  ...Object.keys(small).map(name => `dist/${name}`),
  ...writeTypes(root),
  writeNotice(root, Object.keys(metafile.inputs)),
]);
for (const entry of readdirSync(`${root}dist`, { recursive: true, withFileTypes: true })) {
  const path = join(entry.parentPath, entry.name);
  if (entry.isFile() && !made.has(path.slice(root.length))) rmSync(path);
}

// What is loaded together, and what V8 makes of it.
for (const step of ['pack', 'compile']) {
  execFileSync(process.execPath, [`${root}src/build/${step}.mjs`], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
}

// The man page, which the program prints itself.
writeFileSync(`${root}dist/fretward.1`, execFileSync(process.execPath, [`${root}bin/fretward.js`, 'manual']));

/** A hash over the sources and the versions of what is bundled with them. */
function fingerprint() {
  const hash = createHash('sha256');
  const sources = readdirSync(`${root}src`, { recursive: true, withFileTypes: true })
    .filter(entry => entry.isFile())
    .map(entry => join(entry.parentPath, entry.name))
    .sort();
  for (const path of [...sources, `${root}package-lock.json`]) hash.update(readFileSync(path));
  return hash.digest('hex').slice(0, 16);
}
