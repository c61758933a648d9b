/** Charts for tests: of hand-made tunes, and what is on them. */
import { engraveChart } from '../../../src/engrave/chart/chart.ts';
import type { Box } from '../../../src/engrave/drawing/box.ts';
import { bounds, type Mark } from '../../../src/engrave/drawing/mark.ts';
import type { Page } from '../../../src/engrave/page.ts';
import { chordChart, symbolsOf } from '../../../src/lesson/chords/chart.ts';
import { chordSheet } from '../../../src/lesson/chords/sheet.ts';
import { parseChordSymbol } from '../../../src/lesson/chords/symbol.ts';
import type { Tune } from '../../../src/score/tune.ts';
import { handOf } from '../../lesson/chords/support.ts';
import { pitchOf, tuneOf } from '../../support/melody.ts';

/** A tune of one measure a chord. */
export const charted = (symbols: readonly (readonly string[])[]): Tune => {
  const tune = tuneOf([0, 1, 2, 3].map(() => ({ pitch: pitchOf('C5'), duration: 12 })));
  const [measure] = tune.measures;
  return {
    ...tune,
    title: 'Invented',
    measures: symbols.map((names, index) => ({
      ...measure!,
      index,
      number: String(index + 1),
      at: index * measure!.length,
      chordSymbols: names.map((name, place) => ({
        ...parseChordSymbol(name),
        at: Math.floor((place * measure!.length) / names.length),
      })),
    })),
  };
};

/** The chart of a tune of one measure a chord, drawn. */
export const chartOf = (symbols: readonly (readonly string[])[]): readonly Page[] =>
  engraved(charted(symbols));

/** The chart of a tune, drawn. */
export const engraved = (tune: Tune): readonly Page[] => {
  const chart = chordChart(tune);
  return engraveChart(chart, chordSheet(handOf('ukulele'), symbolsOf(chart), {}, 1), {});
};

/** The bar lines of each row of a page, from left to right, one where several are drawn together. */
export const rowsOf = ({ groups }: Page): readonly (readonly Box[])[] => {
  const rows: Box[][] = [];
  for (const { className, marks } of groups) {
    if (className !== 'system' && className !== 'measure') continue;
    if (className === 'system') rows.push([]);
    const bars = marks.filter(({ role }) => role === 'bar').map(bounds);
    if (bars.length > 0) rows.at(-1)!.push(bars.at(-1)!);
  }
  return rows;
};

export const allMarks = (pages: readonly { groups: readonly { id: string; marks: readonly Mark[] }[] }[]) =>
  pages.flatMap(page =>
    page.groups.filter(({ id }) => /^measure|^system/.test(id)).flatMap(({ marks }) => marks),
  );

/** How many pairs of chord symbols of a chart run into each other. */
export function touching(pages: Parameters<typeof allMarks>[0]): number {
  const boxes = allMarks(pages)
    .filter(mark => mark.role === 'chord' && mark.kind === 'text')
    .map(bounds);
  return boxes.reduce((count, a, index) => {
    const others = boxes.slice(0, index).filter(b => {
      const overlap = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      return Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 0 && overlap > 0.05;
    });
    return count + others.length;
  }, 0);
}
