/** How text is cut into pieces and placed. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Font, fontsWith } from '../../../src/emit/type/fonts.ts';
import { piecesOf } from '../../../src/emit/type/pieces.ts';
import { setText } from '../../../src/emit/type/runs.ts';
import type { TextMark } from '../../../src/engrave/drawing/text.ts';
import { textWidth } from '../../../src/engrave/font/face.ts';
import { CYRILLIC } from '../typeset.ts';

/** A font that has what matches, for tests of order alone. */
const fake = (id: string, has: RegExp): Font => ({
  id,
  carried: id === 'latin',
  has: character => has.test(character),
  bytes: () => new Uint8Array(),
  member: undefined,
  kit: () => {
    throw new Error('not opened');
  },
});

const LATIN = fake('latin', /^[\x20-\x7e]$/);
const WORLD = fake('world', /^[\p{L}\p{M}\p{N}\p{P}\p{Zs}]$/u);
const cut = (text: string, fonts: readonly Font[] = [LATIN, WORLD]) =>
  piecesOf(text, fonts).map(piece => [piece.font?.id, piece.text]);

describe('text is cut', () => {
  it('where the font changes; spaces and points stay with the letters before them', () => {
    expect(cut('Kalinka, Калинка, май! ok')).toEqual([
      ['latin', 'Kalinka, '],
      ['world', 'Калинка, май! '],
      ['latin', 'ok'],
    ]);
  });

  it('where the script changes, since letters are shaped by their script', () => {
    expect(cut('Калинка Ελλάδα')).toEqual([
      ['world', 'Калинка '],
      ['world', 'Ελλάδα'],
    ]);
  });

  it('into composed letters', () => {
    expect(cut('e\u0301')).toEqual([['world', '\u00e9']]);
  });

  it('without what is invisible; other spaces are plain ones', () => {
    expect(cut('a\u200bb\u2028c\td', [LATIN])).toEqual([['latin', 'ab c d']]);
  });

  it('with a piece of no font for what none has', () => {
    expect(cut('a中b', [LATIN])).toEqual([
      ['latin', 'a'],
      [undefined, '中'],
      ['latin', 'b'],
    ]);
  });
});

// Unicode Standard Annex 9: "he said ..." runs left to right, and Hebrew inside it right to left.
describe('pieces stand in visual order', () => {
  it('numbers inside right-to-left words keep their own direction', () => {
    expect(cut('ab שיר 12 שלום cd')).toEqual([
      ['latin', 'ab '],
      ['world', 'שלום'],
      ['latin', ' '],
      ['latin', '12'],
      ['world', 'שיר '],
      ['world', ' '],
      ['latin', 'cd'],
    ]);
  });

  it('brackets open towards their text', () => {
    // In reading order, each bracket the other way round: the font library then turns the whole piece.
    expect(cut('שיר (ב)', [WORLD])).toEqual([['world', 'שיר )ב(']]);
  });
});

const FONTS = fontsWith(CYRILLIC);
const mark = (text: string, anchor: TextMark['anchor']): TextMark => ({
  kind: 'text',
  role: 'heading',
  text,
  face: 'serif',
  x: 100,
  y: 50,
  size: 5,
  anchor,
});

describe('runs are placed', () => {
  const letters = fc.string({
    unit: fc.constantFrom(...'abc éñ ŵő Калинкш 中 م'),
    minLength: 1,
    maxLength: 20,
  });

  it('one after the other, inside the width that the layout has given the text', () => {
    fc.assert(
      fc.property(letters, fc.constantFrom('start', 'middle', 'end'), (text, anchor) => {
        const runs = setText(mark(text, anchor), FONTS);
        const width = textWidth(text, 'serif', 5);
        const left = anchor === 'start' ? 100 : anchor === 'middle' ? 100 - width / 2 : 100 - width;
        runs.forEach((run, i) => {
          expect(run.x).toBeGreaterThanOrEqual(left - 1e-9);
          expect(run.x + run.width).toBeLessThanOrEqual(left + width + 1e-9);
          if (i > 0) expect(run.x).toBeGreaterThanOrEqual(runs[i - 1]!.x + runs[i - 1]!.width - 1e-9);
        });
      }),
    );
  });

  it('as wide as the font has them, where it is carried', () => {
    const text = 'Żółć, Noël & Đurđica';
    const runs = setText(mark(text, 'start'), FONTS);
    expect(
      runs
        .map(run => run.text)
        .join('')
        .replaceAll(' ', ''),
    ).toBe(text.replaceAll(' ', ''));
    for (const { font, text: part, width, narrowing } of runs) {
      const kit = font!.kit();
      expect((kit.layout(part, []).advanceWidth * 5) / kit.unitsPerEm).toBeCloseTo(width, 2);
      expect(narrowing).toBe(1);
    }
  });
});
