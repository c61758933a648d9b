/** Engraved pages and fonts for the tests of printed formats. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { FontFile } from '../../src/emit/type/font-file.ts';
import type { TextMark } from '../../src/engrave/drawing/text.ts';
import { engrave, type Page, type SheetOptions } from '../../src/engrave/engrave.ts';
import { readScore } from '../../src/read/read.ts';
import { chooseMelody } from '../../src/score/melody.ts';
import type { Tune } from '../../src/score/tune.ts';
import { instrument, lowestPlaces } from './text/tunes.ts';

const fileAt = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

export const EXAMPLES = ['amazing-grace', 'michael-row-the-boat-ashore', 'row-row-row-your-boat'] as const;

export function example(name: (typeof EXAMPLES)[number], heading: Partial<Tune> = {}): Tune {
  const file = readFileSync(fileAt(`../../examples/tunes/${name}.musicxml`));
  return { ...chooseMelody(readScore(file).score, { chords: 'top' }).tune, ...heading };
}

export const pagesOf = (tune: Tune, options: Partial<SheetOptions> = {}): readonly Page[] =>
  engrave(tune, lowestPlaces(tune, instrument('ukulele-low-g')), { sheet: 'tab', ...options }).pages;

/** The tune over and over, for sheets of several pages. */
export const repeated = (tune: Tune, times: number): Tune => ({
  ...tune,
  slurs: [],
  tuplets: [],
  measures: Array.from({ length: times }, () => tune.measures)
    .flat()
    .map((measure, index) => ({ ...measure, index, number: String(index + 1) })),
});

export const textsOf = ({ groups }: Page): readonly TextMark[] =>
  groups.flatMap(({ marks }) => marks.flatMap(mark => (mark.kind === 'text' ? [mark] : [])));

/** A font with Cyrillic and hardly anything else, from the package that the carried faces come from. */
export const CYRILLIC: FontFile = {
  name: 'cyrillic.woff',
  bytes: readFileSync(
    fileAt('../../node_modules/@fontsource/source-serif-4/files/source-serif-4-cyrillic-400-normal.woff'),
  ),
};
