/**
 * Takes out of the fonts, at build time, what the sheets draw with, so that neither a font file nor a
 * font library is needed at run time and every machine lays out alike:
 *
 *   src/engrave/font/glyphs.generated.ts   outlines of the music glyphs in use, in staff spaces
 *   src/engrave/font/faces.generated.ts    advance widths of the text faces, in 1/1000 em
 *   src/emit/svg/fonts.generated.ts        small subsets of the text faces, for embedding
 *
 * Outlines are in staff spaces, y downwards, x from the left edge of the ink. Their y = 0 is the point
 * that is laid on a staff position: the middle of a head, the line a clef names, the middle line for
 * rests.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** The music font draws a five-line staff 1000 units high from its bottom line at y = 0. */
const SPACE = 250;
const HEAD = 134.5;
const MIDDLE = 500;

/** name: [code point, y of the origin in font units]. */
const MUSIC = {
  headBreve: [0x1d15c, HEAD],
  headWhole: [0x1d15d, HEAD],
  headHalf: [0x1d157, HEAD],
  headBlack: [0x1d158, HEAD],
  clefG: [0x1d11e, 250],
  clefG8: [0x1d120, 250],
  clefF: [0x1d122, 750],
  clefF8: [0x1d124, 750],
  timeCommon: [0x1d134, MIDDLE],
  timeCut: [0x1d135, 497],
  flat: [0x266d, HEAD],
  natural: [0x266e, 132.5],
  sharp: [0x266f, 131],
  doubleSharp: [0x1d12a, 131],
  doubleFlat: [0x1d12b, HEAD],
  restQuarter: [0x1d13d, MIDDLE],
  rest8: [0x1d13e, MIDDLE],
  rest16: [0x1d13f, MIDDLE],
  rest32: [0x1d140, MIDDLE],
  rest64: [0x1d141, MIDDLE],
  rest128: [0x1d142, MIDDLE],
  flag8: [0x1d16e, 1009],
  flag16: [0x1d16f, 1009],
  flag32: [0x1d170, 1154],
  flag64: [0x1d171, 1330],
  flag128: [0x1d172, 1520],
  segno: [0x1d10b, MIDDLE],
  coda: [0x1d10c, MIDDLE],
  fermata: [0x1d110, 648],
  fermataBelow: [0x1d111, 0],
  breath: [0x1d112, 850],
  caesura: [0x1d113, MIDDLE],
  dynamicR: [0x1d18c, 366],
  dynamicS: [0x1d18d, 366],
  dynamicZ: [0x1d18e, 366],
  dynamicP: [0x1d18f, 366],
  dynamicM: [0x1d190, 366],
  dynamicF: [0x1d191, 366],
  dot: [0x1d16d, 278],
  accent: [0x1d17b, -146],
  staccatissimo: [0x1d17e, -104],
  marcato: [0x1d17f, -158],
};

/** Flags of stems that point down are the upward ones, mirrored; articulations above are those below, which the font has. */
const MIRRORED = {
  staccatissimo: 'staccatissimoAbove',
  marcato: 'marcatoAbove',
  flag8: 'flag8Down',
  flag16: 'flag16Down',
  flag32: 'flag32Down',
  flag64: 'flag64Down',
  flag128: 'flag128Down',
};

/**
 * Figures of the time signature: the roman's heaviest weight, scaled so that a figure, with what round ones
 * overshoot, is a little less than two spaces high: two of them, one over the other, stay apart.
 */
const FIGURES = '0123456789';

/** Code points of the text faces that are measured, and in which blocks they are embedded. */
export const BLOCKS = {
  basic: [
    [0x20, 0x7e],
    [0xa0, 0xa0],
    [0xa9, 0xa9],
    [0xb7, 0xb7],
    [0x2013, 0x2014],
    [0x2018, 0x201a],
    [0x201c, 0x201e],
    [0x2022, 0x2022],
    [0x2026, 0x2026],
  ],
  latin: [
    [0xa1, 0xa8],
    [0xaa, 0xb6],
    [0xb8, 0xff],
    [0x131, 0x131],
    [0x152, 0x153],
    [0x2039, 0x203a],
    [0x203f, 0x203f],
  ],
  extended: [
    [0x100, 0x130],
    [0x132, 0x151],
    [0x154, 0x17f],
    [0x218, 0x21b],
    [0x1e80, 0x1e85],
    [0x1e9e, 0x1e9e],
    [0x1ef2, 0x1ef3],
  ],
  vietnamese: [
    [0x1a0, 0x1a1],
    [0x1af, 0x1b0],
    [0x1ea0, 0x1ef1],
    [0x1ef4, 0x1ef9],
  ],
};

export const FACES = {
  serif: ['source-serif-4', '400-normal', 'Source Serif 4', 400, 'normal'],
  serifBold: ['source-serif-4', '600-normal', 'Source Serif 4', 600, 'normal'],
  serifItalic: ['source-serif-4', '400-italic', 'Source Serif 4', 400, 'italic'],
  sansBold: ['source-sans-3', '600-normal', 'Source Sans 3', 600, 'normal'],
};
export const SUBSETS = ['latin', 'latin-ext', 'vietnamese'];
/** Layout tables: nothing is kerned or substituted, so that measured widths hold. */
export const NEEDLESS = ['GSUB', 'GPOS', 'GDEF', 'STAT', 'BASE'];

const round = value => Math.round(value * 1000) / 1000 || 0;
export const pointsOf = blocks =>
  blocks.flatMap(([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => from + i));

/** One outline as SVG path data with its box and the heights at which stems meet its sides. */
function outline(path, map) {
  const parts = [];
  const xs = [];
  for (const { command, args } of path.commands) {
    const letter = { moveTo: 'M', lineTo: 'L', quadraticCurveTo: 'Q', bezierCurveTo: 'C', closePath: 'Z' }[
      command
    ];
    const numbers = [];
    for (let i = 0; i < args.length; i += 2) {
      const [x, y] = map(args[i], args[i + 1]);
      numbers.push(round(x), round(y));
    }
    if (numbers.length > 0) xs.push(numbers.slice(-2));
    parts.push(letter + numbers.join(' ').replaceAll(' -', '-'));
  }
  const corners = [map(path.bbox.minX, path.bbox.minY), map(path.bbox.maxX, path.bbox.maxY)];
  const ys = corners.map(corner => corner[1]).sort((a, b) => a - b);
  const byX = xs.sort((a, b) => a[0] - b[0]);
  return {
    path: parts.join(''),
    left: round(corners[0][0]),
    top: round(ys[0]),
    right: round(corners[1][0]),
    bottom: round(ys[1]),
    leftmost: byX[0][1],
    rightmost: byX.at(-1)[1],
  };
}

function musicGlyphs(fontkit, files) {
  const music = fontkit.create(readFileSync(`${files}noto-music/files/noto-music-music-400-normal.woff`));
  const glyphs = {};
  for (const [name, [codePoint, origin]] of Object.entries(MUSIC)) {
    const { path } = music.glyphForCodePoint(codePoint);
    const x0 = path.bbox.minX;
    glyphs[name] = outline(path, (x, y) => [(x - x0) / SPACE, (origin - y) / SPACE]);
    const mirrored = MIRRORED[name];
    if (mirrored) glyphs[mirrored] = outline(path, (x, y) => [(x - x0) / SPACE, (y - origin) / SPACE]);
  }
  const roman = fontkit.create(
    readFileSync(`${files}source-serif-4/files/source-serif-4-latin-900-normal.woff`),
  );
  const { bbox: tall } = roman.glyphForCodePoint(0x31).path;
  const scale = 1.88 / (tall.maxY - tall.minY);
  for (const figure of FIGURES) {
    const { path } = roman.glyphForCodePoint(figure.codePointAt(0));
    const x0 = path.bbox.minX;
    const middle = (tall.minY + tall.maxY) / 2;
    glyphs[`time${figure}`] = outline(path, (x, y) => [(x - x0) * scale, (middle - y) * scale]);
  }
  return glyphs;
}

/** Advance widths, by character, in 1/1000 em, and the face's own vertical measures. */
function faceMetrics(fontkit, files, [pack, style, family, weight, slant]) {
  const fonts = SUBSETS.map(subset =>
    fontkit.create(readFileSync(`${files}${pack}/files/${pack}-${subset}-${style}.woff`)),
  );
  const [main] = fonts;
  const em = value => Math.round((value * 1000) / main.unitsPerEm);
  const widths = {};
  for (const point of Object.values(BLOCKS).flatMap(pointsOf)) {
    const font = fonts.find(each => each.hasGlyphForCodePoint(point));
    if (font) widths[String.fromCodePoint(point)] = em(font.glyphForCodePoint(point).advanceWidth);
  }
  const figure = main.glyphForCodePoint(0x30).path.bbox;
  return {
    family,
    weight,
    style: slant,
    ascent: em(main.ascent),
    descent: em(-main.descent),
    capHeight: em(main.capHeight),
    xHeight: em(main.xHeight),
    figureHeight: em(figure.maxY),
    widths,
  };
}

/** Each face's blocks as WOFF2 in base 64, with the characters each holds. */
async function embeddedFonts(subset, fontkit, files, [pack, style]) {
  const blocks = {};
  for (const [name, ranges] of Object.entries(BLOCKS)) {
    const pieces = [];
    for (const part of SUBSETS) {
      const bytes = readFileSync(`${files}${pack}/files/${pack}-${part}-${style}.woff`);
      const font = fontkit.create(bytes);
      const held = pointsOf(ranges).filter(
        point => font.hasGlyphForCodePoint(point) && !pieces.some(piece => piece.points.includes(point)),
      );
      // A face's Latin characters lie in one of its files; the few in another file are left to the next block.
      if (held.length > 0) pieces.push({ points: held, bytes });
    }
    const largest = pieces.sort((a, b) => b.points.length - a.points.length)[0];
    if (!largest) continue;
    const text = String.fromCodePoint(...largest.points);
    const woff2 = await subset(largest.bytes, text, {
      targetFormat: 'woff2',
      noLayoutClosure: true,
      noHinting: true,
      dropTables: NEEDLESS,
    });
    blocks[name] = { characters: text, data: woff2.toString('base64') };
  }
  return blocks;
}

export const asModule = (stamp, note, name, value, type) =>
  `// ${stamp}\n// Generated by src/build/glyphs.mjs: ${note}\n\nexport const ${name} = ${JSON.stringify(value, null, 1)} ${type};\n`;

export async function takeGlyphs(root) {
  const files = `${root}node_modules/@fontsource/`;
  const versions = ['noto-music', 'source-serif-4', 'source-sans-3'].map(pack =>
    readFileSync(`${files}${pack}/package.json`),
  );
  const hash = createHash('sha256').update(readFileSync(fileURLToPath(import.meta.url)));
  for (const version of versions) hash.update(version);
  const stamp = hash.digest('hex').slice(0, 16);
  const targets = ['src/engrave/font/glyphs', 'src/engrave/font/faces', 'src/emit/svg/fonts'].map(
    path => `${root}${path}.generated.ts`,
  );
  if (targets.every(path => existsSync(path) && readFileSync(path, 'utf8').startsWith(`// ${stamp}`))) return;

  const fontkit = await import('fontkit');
  const { default: subset } = await import('subset-font');
  const faces = {};
  const fonts = {};
  for (const [name, face] of Object.entries(FACES)) {
    faces[name] = faceMetrics(fontkit, files, face);
    fonts[name] = await embeddedFonts(subset, fontkit, files, face);
  }
  for (const path of targets) mkdirSync(path.slice(0, path.lastIndexOf('/')), { recursive: true });
  const [glyphs, metrics, data] = targets;
  writeFileSync(
    glyphs,
    asModule(stamp, 'outlines in staff spaces.', 'GLYPHS', musicGlyphs(fontkit, files), 'as const'),
  );
  writeFileSync(metrics, asModule(stamp, 'widths in 1/1000 em.', 'FACES', faces, 'as const'));
  writeFileSync(
    data,
    asModule(
      stamp,
      'subsets of the text faces (SIL Open Font License 1.1), WOFF2 in base 64.',
      'FONTS',
      fonts,
      'as const',
    ),
  );
}
