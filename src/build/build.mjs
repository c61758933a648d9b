/**
 * Builds the command: takes glyph outlines and font tables out of the fonts (glyphs.mjs), then bundles
 * `src/cli/main.ts` into dist/. Start-up is one small file; what a command needs beyond it lies in
 * chunks that are imported when they are used.
 */
import { existsSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { takeTypefaces } from './typefaces.mjs';

const root = fileURLToPath(new URL('../../', import.meta.url));

if (existsSync(new URL('./glyphs.mjs', import.meta.url))) {
  const { takeGlyphs } = await import('./glyphs.mjs');
  await takeGlyphs(root);
}
await takeTypefaces(root);

rmSync(`${root}dist`, { recursive: true, force: true });
await build({
  absWorkingDir: root,
  entryPoints: ['src/cli/main.ts'],
  outdir: 'dist',
  bundle: true,
  splitting: true,
  minify: true,
  format: 'esm',
  platform: 'node',
  target: 'node20.19',
  // A rasteriser is a native library; everything else is bundled.
  external: ['@resvg/resvg-js'],
  // musicxml-interfaces is given a DOMParser of ours (src/read/xml/dom-parser.ts): xmldom need not be loaded.
  // pdfkit's build for browsers packs with fflate: the same bytes on every machine, as zlib's are not.
  alias: {
    '@xmldom/xmldom': `${root}src/read/xml/xmldom-stub.cjs`,
    pdfkit: `${root}node_modules/pdfkit/js/pdfkit.browser.mjs`,
  },
  legalComments: 'none',
  logLevel: 'warning',
  banner: {
    js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);",
  },
});
