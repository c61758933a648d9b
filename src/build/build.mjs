/**
 * Builds the command and the library: takes glyph outlines and font tables out of the fonts (glyphs.mjs), then bundles
 * `src/cli/main.ts` and `src/index.ts` into dist/. Start-up is one small file; what a command needs beyond
 * it lies in chunks that are imported when they are used, and that the library shares.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { writeNotice } from './notice.mjs';
import { takeTypefaces } from './typefaces.mjs';
import { writeTypes } from './types.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

if (existsSync(new URL('./glyphs.mjs', import.meta.url))) {
  const { takeGlyphs } = await import('./glyphs.mjs');
  await takeGlyphs(root);
}
await takeTypefaces(root);

const { metafile } = await build({
  absWorkingDir: root,
  // The start-up file, what a worker thread runs, and the library.
  entryPoints: { main: 'src/cli/main.ts', worker: 'src/batch/worker.ts', index: 'src/index.ts' },
  outdir: 'dist',
  bundle: true,
  splitting: true,
  minify: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  // A rasteriser is a native library, and a pool starts threads from files of its own; everything else is bundled.
  external: ['@resvg/resvg-js', 'tinypool'],
  // musicxml-interfaces is given a DOMParser of ours (src/read/xml/dom-parser.ts): xmldom need not be loaded.
  // pdfkit's build for browsers packs with fflate: the same bytes on every machine, as zlib's are not.
  alias: {
    '@xmldom/xmldom': `${root}src/read/xml/xmldom-stub.cjs`,
    pdfkit: `${root}node_modules/pdfkit/js/pdfkit.browser.mjs`,
  },
  // What was made by another build is out of date.
  define: { 'process.env.FRETWARD_BUILD': JSON.stringify(fingerprint()) },
  metafile: true,
  legalComments: 'none',
  logLevel: 'warning',
  banner: {
    js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);",
  },
});

// Files of an earlier build go last, so that a command which starts meanwhile finds all that it needs.
const made = new Set([
  ...Object.keys(metafile.outputs),
  ...writeTypes(root),
  writeNotice(root, Object.keys(metafile.inputs)),
]);
for (const entry of readdirSync(`${root}dist`, { recursive: true, withFileTypes: true })) {
  const path = join(entry.parentPath, entry.name);
  if (entry.isFile() && !made.has(path.slice(root.length))) rmSync(path);
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
