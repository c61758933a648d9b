/**
 * The fonts that a sheet is set in where the output has to hold them itself: the carried faces in
 * their pieces, then the font that the user gives. A font is opened when its first character is met.
 */
import { brotliDecompressSync } from 'node:zlib';
import * as fontkit from 'fontkit';
import type { FaceName } from '../../engrave/font/face.ts';
import { Refusal } from '../../score/diagnostic.ts';
import type { FontFile } from './font-file.ts';
import { FONTS } from './fonts.generated.ts';

export interface Font {
  /** Unique in a document: "serif-0". */
  readonly id: string;
  /** Whether its widths are those that the sheet was laid out with. */
  readonly carried: boolean;
  readonly has: (character: string) => boolean;
  /** The whole file, unpacked. */
  readonly bytes: () => Uint8Array;
  /** Which font it is, where the file is a collection. */
  readonly member: string | undefined;
  readonly kit: () => fontkit.Font;
}

/** The fonts for a face's characters, the first that has one being its own. */
export type Fonts = (face: FaceName) => readonly Font[];

const once = <T>(make: () => T): (() => T) => {
  let made: { readonly value: T } | undefined;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
};

/** Opens a font file; a collection answers for its first font. */
function open(bytes: Uint8Array): { readonly kit: fontkit.Font; readonly member: string | undefined } {
  const opened = fontkit.create(bytes as Buffer);
  if (!('fonts' in opened)) return { kit: opened, member: undefined };
  const kit = opened.fonts[0]!;
  return { kit, member: kit.postscriptName };
}

interface Piece {
  readonly characters: string;
  readonly data: string;
}

function carriedFont(id: string, { characters, data }: Piece): Font {
  const held = new Set(characters);
  const bytes = once(() => brotliDecompressSync(Buffer.from(data, 'base64')));
  return {
    id,
    carried: true,
    has: each => held.has(each),
    bytes,
    member: undefined,
    kit: once(() => open(bytes()).kit),
  };
}

const carriedFonts = once(() => {
  const pieces = Object.entries(FONTS) as [FaceName, readonly Piece[]][];
  return new Map(
    pieces.map(([face, list]) => [face, list.map((piece, at) => carriedFont(`${face}-${at}`, piece))]),
  );
});

/**
 * Whether every table that the font lists lies inside its file. The font library reads tables when they
 * are needed, and in a file that is cut off it may look for them for ever.
 */
function isWhole(kit: fontkit.Font, length: number): boolean {
  const { directory } = kit as unknown as {
    directory: { tables: Readonly<Record<string, { offset: number; length: number; compLength?: number }>> };
  };
  return Object.values(directory.tables).every(
    ({ offset, length: unpacked, compLength }) => offset + (compLength ?? unpacked) <= length,
  );
}

/** Opens it at once: a file that only looks like a font is refused before anything is drawn. */
function givenFont({ name, bytes }: FontFile): Font {
  try {
    const { kit, member } = open(bytes);
    if (!isWhole(kit, bytes.length) || !(kit.unitsPerEm > 0)) throw new Error('incomplete');
    kit.layout(' ');
    return {
      id: 'given',
      carried: false,
      has: each => kit.hasGlyphForCodePoint(each.codePointAt(0)!),
      bytes: () => bytes,
      member,
      kit: () => kit,
    };
  } catch {
    throw new Refusal({
      severity: 'error',
      code: 'font-unreadable',
      message: `the font ${name} cannot be used: it is damaged, or of a kind that is not known here`,
      hint: 'give another .ttf, .otf or .woff file with --font',
    });
  }
}

/** The carried fonts, and behind them the given one. Throws a Refusal if that is damaged. */
export function fontsWith(file: FontFile | undefined): Fonts {
  const carried = carriedFonts();
  const given = file ? [givenFont(file)] : [];
  return face => [...carried.get(face)!, ...given];
}
