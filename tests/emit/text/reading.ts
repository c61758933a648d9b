/** Reads a text sheet back, as a player would: rows into heads and figures, by column. */
import { displayWidth } from '../../../src/emit/text/width.ts';

export interface ReadSystem {
  readonly lines: readonly string[];
  /** Columns that hold at least one notehead. */
  readonly heads: ReadonlySet<number>;
  /** From left to right; in one column from string 1 on. */
  readonly figures: readonly { readonly column: number; readonly string: number; readonly fret: number }[];
}

const HEADS = '●○◦';
/** The staff's top line, from its corner to its last bar line. */
const TOP_LINE = /┌.*[┐┒]/;

/** The systems of a sheet in Unicode, for an instrument of so many strings; 0 for one without tablature. */
export const readSheet = (sheet: string, strings: number): readonly ReadSystem[] =>
  sheet
    .split('\n\n')
    .map(block => block.split('\n').filter(line => line !== ''))
    .filter(lines => lines.some(line => TOP_LINE.test(line) && /└/.test(lines.join(''))))
    .map(lines => readSystem(lines, strings));

const readSystem = (lines: readonly string[], strings: number): ReadSystem => {
  const tablature = strings === 0 ? [] : lines.slice(-strings);
  const staff = strings === 0 ? lines : lines.slice(0, -strings);
  const heads = new Set<number>();
  for (const line of staff)
    columns(line).forEach((char, column) => {
      if (HEADS.includes(char)) heads.add(column);
    });
  const figures = tablature.flatMap((line, index) =>
    [...line.matchAll(/\d+/g)].map(({ 0: fret, index: at }) => ({
      column: displayWidth(line.slice(0, at)),
      string: index + 1,
      fret: Number(fret),
    })),
  );
  figures.sort((a, b) => a.column - b.column || a.string - b.string);
  return { lines, heads, figures };
};

/** One entry a column; the second of a wide character is empty. */
const columns = (line: string): readonly string[] =>
  Array.from(line).flatMap(char =>
    displayWidth(char) === 2 ? [char, ''] : displayWidth(char) === 1 ? [char] : [],
  );
