/** How wide text for a terminal may be, and long lines over several. */
import { displayWidth, fold } from '../emit/text/width.ts';

/** Where it is not known: output to a file or a pipe. */
const USUAL = 80;

/** Narrower than this nothing is laid out for, as with `--width`. */
const NARROWEST = 40;

/** Columns of standard output, or of standard error. */
export const columnsOf = ({ columns }: { readonly columns?: number | undefined }): number =>
  Math.max(NARROWEST, columns || USUAL);

/** Stands between words that no line parts. */
export const NO_BREAK = '\u00a0';

/**
 * Text whose lines are no wider than `width` where words allow it: what goes on is indented by two more
 * columns than its line. Blanks that do not break become plain ones.
 */
export const wrapped = (text: string, width: number): string =>
  text
    .split('\n')
    .flatMap(line => {
      if (displayWidth(line) <= width) return [line];
      const indent = /^ */.exec(line)![0];
      const inside = fold(line.slice(indent.length), width - indent.length - 2);
      return inside.map((part, index) => `${indent}${index > 0 ? '  ' : ''}${part.trimEnd()}`);
    })
    .map(line => line.replaceAll(NO_BREAK, ' '))
    .join('\n');

/** The same text, in which a word that counts keeps its number beside it: "beat 1". */
export const withNumbers = (text: string): string =>
  text.replace(/\b(line|part|measure|beat|string|fret)(s?) (?=\S*\d)/g, `$1$2${NO_BREAK}`);
