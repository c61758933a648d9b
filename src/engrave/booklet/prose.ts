/** Sets blocks of text: words into lines of a width, lines down a column. Millimetres. */
import type { Block, Run, Words } from '../../lesson/pack/prose.ts';
import { type Mark, move } from '../drawing/mark.ts';
import type { FaceName } from '../font/face.ts';
import { richText } from '../measure/rich-text.ts';

export interface ProseStyle {
  /** Em size of the text. */
  readonly size: number;
  readonly width: number;
}

/** A line of text; its marks stand at their places across the column, on a baseline at 0. */
export interface ProseLine {
  readonly marks: readonly Mark[];
  /** From the baseline before; what a page starts with has none. */
  readonly advance: number;
  /** Does not end a page: what follows belongs to it. */
  readonly keep: boolean;
}

const LEADING = 1.42;
/** Between blocks and between items of a list, in lines. */
const BLOCK_GAP = 0.55;
const ITEM_GAP = 0.2;
const HEADING_GAP = { above: 0.9, below: 0.15 } as const;
const HEADING_SIZE = 1.12;
const INDENT = 1.4;

/** Holds two words on a line (Unicode U+00A0); set as a blank. */
const NO_BREAK = '\u00a0';

/** The lines of a text, in order. */
export const proseLines = (blocks: readonly Block[], style: ProseStyle): readonly ProseLine[] =>
  blocks.flatMap((block, index) =>
    spaced(blockLines(block, style), gapAbove(block, blocks[index - 1]), style),
  );

const gapAbove = (block: Block, before: Block | undefined): number => {
  if (before === undefined) return 0;
  if (before.kind === 'heading') return HEADING_GAP.below;
  return block.kind === 'heading' ? HEADING_GAP.above : BLOCK_GAP;
};

const spaced = (lines: readonly ProseLine[], gap: number, { size }: ProseStyle): readonly ProseLine[] =>
  lines.map((line, index) =>
    index === 0 ? { ...line, advance: line.advance + gap * size * LEADING } : line,
  );

const blockLines = (block: Block, style: ProseStyle): readonly ProseLine[] => {
  switch (block.kind) {
    case 'paragraph':
      return wrapped(block.words, style);
    case 'heading': {
      const words = block.words.map((run): Run => ({ ...run, bold: true }));
      return wrapped(words, { ...style, size: style.size * HEADING_SIZE }).map(line => ({
        ...line,
        keep: true,
      }));
    }
    case 'quote':
      return indented(block.blocks, style);
    case 'list':
      return block.items.flatMap((item, index) => {
        const label = block.from === undefined ? '–' : `${block.from + index}.`;
        const lines = withLabel(indented(item, style), label, style);
        return spaced(lines, index > 0 ? ITEM_GAP : 0, style);
      });
  }
};

const indented = (blocks: readonly Block[], style: ProseStyle): readonly ProseLine[] => {
  const indent = INDENT * style.size;
  return proseLines(blocks, { ...style, width: style.width - indent }).map(line => ({
    ...line,
    marks: move(line.marks, indent, 0),
  }));
};

const withLabel = (
  lines: readonly ProseLine[],
  label: string,
  { size }: ProseStyle,
): readonly ProseLine[] => {
  const marks = richText(label, { role: 'heading', face: 'serif', size }, size * 0.25).marks;
  const [first = { marks: [], advance: size * LEADING, keep: false }, ...rest] = lines;
  return [{ ...first, marks: [...marks, ...first.marks] }, ...rest];
};

/** Letters without a blank between them, in as many styles as they have. */
interface Word {
  readonly pieces: Words;
  readonly width: number;
  /** Stands at the start of a line of its own. */
  readonly breaks: boolean;
}

/** Lines as full as they can be. A word that is wider than the column is set by itself. */
const wrapped = (words: Words, { size, width }: ProseStyle): readonly ProseLine[] => {
  const blank = richText(' ', { role: 'heading', face: 'serif', size }).width;
  const lines: ProseLine[] = [];
  let marks: Mark[] = [];
  let at = 0;
  const end = (): void => {
    lines.push({ marks, advance: size * LEADING, keep: false });
    marks = [];
    at = 0;
  };
  for (const word of wordsIn(words, size)) {
    if (word.breaks || (at > 0 && at + word.width > width)) end();
    let x = at;
    for (const run of word.pieces) {
      const set = richText(run.text, { role: 'heading', face: faceOf(run), size }, x);
      marks.push(...set.marks);
      x += set.width;
    }
    at = x + blank;
  }
  end();
  return lines;
};

const wordsIn = (words: Words, size: number): readonly Word[] => {
  const found: Word[] = [];
  let pieces: Run[] = [];
  let breaks = false;
  const end = (): void => {
    if (pieces.length > 0) {
      const width = pieces.reduce(
        (sum, run) => sum + richText(run.text, { role: 'heading', face: faceOf(run), size }).width,
        0,
      );
      found.push({ pieces, width, breaks });
      breaks = false;
    }
    pieces = [];
  };
  for (const run of words) {
    for (const piece of run.text.split(/([ \t\n]+)/)) {
      if (piece === '') continue;
      if (piece.trim() !== '') {
        pieces.push({ ...run, text: piece.replaceAll(NO_BREAK, ' ') });
        continue;
      }
      end();
      breaks ||= piece.includes('\n');
    }
  }
  end();
  return found;
};

const faceOf = ({ bold, italic }: Run): FaceName => (bold ? 'serifBold' : italic ? 'serifItalic' : 'serif');

/** Where lines may stand on a page, and the left edge of the column. */
export interface Column {
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
}

/** Puts lines on pages; `columnOn` says where they may stand on each, counted from 0. */
export const flow = (
  lines: readonly ProseLine[],
  columnOn: (page: number) => Column,
): readonly (readonly Mark[])[] => {
  const pages: Mark[][] = [[]];
  let y: number | undefined;
  lines.forEach((line, index) => {
    let column = columnOn(pages.length - 1);
    const fits = (upTo: number): boolean => {
      let below = y ?? column.top;
      for (let k = index; k <= upTo; k++) below += lines[k]!.advance;
      return below <= column.bottom;
    };
    const last = line.keep ? lines.findIndex((each, k) => k >= index && !each.keep) : index;
    if (y !== undefined && !fits(Math.max(last, index))) {
      pages.push([]);
      column = columnOn(pages.length - 1);
      y = undefined;
    }
    y = y === undefined ? column.top + line.advance * 0.8 : y + line.advance;
    pages.at(-1)!.push(...move(line.marks, column.left, y));
  });
  return pages;
};
