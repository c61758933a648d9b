/**
 * Builds the command: takes glyph outlines and font tables out of the fonts (glyphs.mjs), then bundles
 * `src/cli/main.ts` into dist/. Start-up is one small file; what a command needs beyond it lies in
 * chunks that are imported when they are used.
 */
import { existsSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';

const root = fileURLToPath(new URL('../../', import.meta.url));

if (existsSync(new URL('./glyphs.mjs', import.meta.url))) {
  const { takeGlyphs } = await import('./glyphs.mjs');
  await takeGlyphs(root);
}

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
  // musicxml-interfaces is given a DOMParser of ours (src/read/xml/dom-parser.ts): xmldom need not be loaded.
  alias: { '@xmldom/xmldom': `${root}src/read/xml/xmldom-stub.cjs` },
  legalComments: 'none',
  logLevel: 'warning',
  banner: {
    js: "import{createRequire as makeRequire}from'node:module';const require=makeRequire(import.meta.url);",
  },
});
