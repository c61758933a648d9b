/**
 * Takes the text faces out of the fonts once more, for output that has to embed or trace them itself:
 *
 *   src/emit/type/fonts.generated.ts   each face in a few pieces, TrueType packed with Brotli in base 64
 *
 * The faces come in one file a group of languages. Each becomes a piece; a character is in the first
 * piece that has it, the same one whose width was measured. (The WOFF2 that pages in SVG carry cannot
 * be subset by the font library.)
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync } from 'node:zlib';
import { asModule, BLOCKS, FACES, NEEDLESS, pointsOf, SUBSETS } from './glyphs.mjs';

async function piecesOf(subset, fontkit, files, [pack, style]) {
  const left = new Set(Object.values(BLOCKS).flatMap(pointsOf));
  const pieces = [];
  for (const part of SUBSETS) {
    const bytes = readFileSync(`${files}${pack}/files/${pack}-${part}-${style}.woff`);
    const font = fontkit.create(bytes);
    const held = [...left].filter(point => font.hasGlyphForCodePoint(point)).sort((a, b) => a - b);
    if (held.length === 0) continue;
    for (const point of held) left.delete(point);
    const characters = String.fromCodePoint(...held);
    const sfnt = await subset(bytes, characters, {
      targetFormat: 'truetype',
      noLayoutClosure: true,
      noHinting: true,
      dropTables: NEEDLESS,
    });
    pieces.push({ characters, data: brotliCompressSync(sfnt).toString('base64') });
  }
  return pieces;
}

export async function takeTypefaces(root) {
  const files = `${root}node_modules/@fontsource/`;
  const hash = createHash('sha256');
  for (const source of [import.meta.url, new URL('./glyphs.mjs', import.meta.url).href])
    hash.update(readFileSync(fileURLToPath(source)));
  for (const pack of new Set(Object.values(FACES).map(([pack]) => pack)))
    hash.update(readFileSync(`${files}${pack}/package.json`));
  const stamp = hash.digest('hex').slice(0, 16);
  const target = `${root}src/emit/type/fonts.generated.ts`;
  if (existsSync(target) && readFileSync(target, 'utf8').startsWith(`// ${stamp}`)) return;

  const fontkit = await import('fontkit');
  const { default: subset } = await import('subset-font');
  const fonts = {};
  for (const [name, face] of Object.entries(FACES))
    fonts[name] = await piecesOf(subset, fontkit, files, face);
  mkdirSync(`${root}src/emit/type`, { recursive: true });
  const note = 'the text faces (SIL Open Font License 1.1) as TrueType, packed with Brotli, in base 64.';
  writeFileSync(
    target,
    asModule(stamp, note, 'FONTS', fonts, 'as const').replace(
      'src/build/glyphs.mjs',
      'src/build/typefaces.mjs',
    ),
  );
}
