/** What cannot be shown is named, with the place where it stands. */
import { describe, expect, it } from 'vitest';
import { fontsWith } from '../../../src/emit/type/fonts.ts';
import { leftToTheReader, notShown } from '../../../src/emit/type/missing.ts';
import { Refusal } from '../../../src/score/diagnostic.ts';
import { tuneOf } from '../text/tunes.ts';
import { CYRILLIC, pagesOf } from '../typeset.ts';

const sheet = pagesOf(tuneOf([{ notes: 'C4w/中' }], { title: 'Калинка', composer: 'Noël Đurić' }));
const plain = pagesOf(
  tuneOf([{ notes: 'C4w/la' }], { title: 'Zo\u0308e\u200b Ångström', composer: 'Čapek' }),
);

describe('characters without a font', () => {
  it('are named with their place and their code', () => {
    const [warning, ...others] = notShown(sheet, fontsWith(undefined), undefined);
    expect(others).toEqual([]);
    expect(warning).toMatchObject({ severity: 'warning', code: 'characters-not-shown' });
    expect(warning!.message).toContain('К (U+041A)');
    expect(warning!.message).toMatch(/и \(U\+0438\).* in the heading/);
    expect(warning!.message).toMatch(/; 中 \(U\+4E2D\) in the lyrics$/);
    expect(warning!.hint).toContain('--font');
  });

  it('are fewer with a font that has some of them', () => {
    const [warning] = notShown(sheet, fontsWith(CYRILLIC), CYRILLIC.name);
    expect(warning!.message).toBe(
      "neither the sheets' own fonts nor cyrillic.woff have 中 (U+4E2D) in the lyrics",
    );
  });

  it('are none in Latin with its accents, composed or not, or among the invisible', () => {
    expect(notShown(plain, fontsWith(undefined), undefined)).toEqual([]);
    expect(leftToTheReader(plain)).toEqual([]);
  });

  it('are left to the reader in SVG, and named', () => {
    expect(leftToTheReader(sheet)).toMatchObject([{ severity: 'warning', code: 'characters-not-carried' }]);
  });
});

describe('a font file that is damaged', () => {
  it.each([0, 4, 40, 400, 4000, 12_000, CYRILLIC.bytes.length - 8])(
    'is refused when cut after %i bytes',
    length => {
      const bytes = CYRILLIC.bytes.subarray(0, length);
      expect(() => fontsWith({ name: 'cut.woff', bytes })).toThrow(Refusal);
    },
  );
});
