/**
 * Cuts text into pieces that can each be set in one go: one font, one script, one direction; and puts
 * them in the order in which they stand on the line, from left to right (Unicode Standard Annex 9).
 * Letters inside a piece stay in reading order; the font library turns those of right-to-left scripts.
 */
import bidiFactory from 'bidi-js';
import { getScript } from 'unicode-properties';
import type { Font } from './fonts.ts';

export interface Piece {
  readonly text: string;
  /** Undefined where no font has the characters. */
  readonly font: Font | undefined;
  /** Of direction: odd from right to left. */
  readonly level: number;
}

interface Growing extends Piece {
  text: string;
  script: string | undefined;
}

const INVISIBLE = /^\p{DI}$/u;
const SPACE = /^[\s\p{Cc}]$/u;
const CLINGING = /^[\s\p{P}\p{S}\p{M}\p{DI}]$/u;
/** Letters written from right to left, and signs that turn the direction. */
const TURNING =
  /[\p{Script=Hebrew}\p{Script=Arabic}\p{Script=Syriac}\p{Script=Thaana}\p{Script=Nko}\u200f\u202a-\u202e\u2066-\u2069]/u;

// Its types call a default export what Node takes for the module itself.
const bidi = (bidiFactory as unknown as typeof bidiFactory.default)();

/** A level for each UTF-16 unit of the text; none where everything runs to the right. */
function levelsOf(text: string): Uint8Array | undefined {
  return TURNING.test(text) ? bidi.getEmbeddingLevels(text, 'ltr').levels : undefined;
}

/** Brackets open towards their text in either direction. */
const facing = (character: string, level: number): string =>
  level % 2 === 1 ? (bidi.getMirroredCharacter(character) ?? character) : character;

function scriptOf(character: string): string | undefined {
  const script = getScript(character.codePointAt(0)!);
  return script === 'Common' || script === 'Inherited' ? undefined : script;
}

function fontOf(character: string, fonts: readonly Font[], before: Font | undefined): Font | undefined {
  // Spaces, points and combining marks stay with the letters before them: scripts are shaped whole.
  if (before && !before.carried && CLINGING.test(character) && before.has(character)) return before;
  return fonts.find(font => font.has(character));
}

/** Whether a character may be set together with those before it. */
function joins(last: Growing, font: Font | undefined, level: number, script: string | undefined): boolean {
  if (last.font !== font || last.level !== level) return false;
  return !font || font.carried || !last.script || !script || last.script === script;
}

function cut(text: string, fonts: readonly Font[]): Growing[] {
  const levels = levelsOf(text);
  const found: Growing[] = [];
  let at = 0;
  for (const each of text) {
    const level = levels?.[at] ?? 0;
    at += each.length;
    const last = found.at(-1);
    const known = fontOf(each, fonts, last?.font);
    if (!known && INVISIBLE.test(each)) continue;
    const character = !known && SPACE.test(each) ? ' ' : facing(each, level);
    const font = fontOf(character, fonts, last?.font);
    const script = font?.carried ? undefined : scriptOf(character);
    if (last && joins(last, font, level, script)) {
      last.text += character;
      last.script ??= script;
    } else found.push({ text: character, font, level, script });
  }
  return found;
}

/** Points and spaces alone have no script by which the font library could tell that they are to be turned. */
const turned = (piece: Growing): Piece =>
  piece.level % 2 === 1 && !piece.script ? { ...piece, text: [...piece.text].reverse().join('') } : piece;

/** From the highest level down to 1, each stretch of at least that level is turned round (UAX 9, L2). */
function visualOrder(pieces: readonly Piece[]): readonly Piece[] {
  let ordered = [...pieces];
  for (let level = Math.max(0, ...pieces.map(each => each.level)); level > 0; level--) {
    const next: Piece[] = [];
    for (let i = 0; i < ordered.length; ) {
      let end = i;
      while (end < ordered.length && ordered[end]!.level >= level) end++;
      next.push(...(end > i ? ordered.slice(i, end).reverse() : [ordered[i]!]));
      i = Math.max(end, i + 1);
    }
    ordered = next;
  }
  return ordered;
}

/**
 * The pieces from left to right. Spaces of any kind that no font has become plain ones, and what is
 * invisible and in no font is left out: neither is ever missed.
 */
export const piecesOf = (text: string, fonts: readonly Font[]): readonly Piece[] =>
  visualOrder(cut(text.normalize('NFC'), fonts).map(turned));
