/**
 * Tables of aligned columns for a terminal. Where a table is too wide, its one column of running text is
 * folded; what has no room beside the rest goes below its row, with its title.
 */
import { displayWidth, fold } from '../emit/text/width.ts';
import { columnsOf, NO_BREAK, wrapped } from './width.ts';

export interface Column<Row> {
  readonly title: string;
  readonly align: 'left' | 'right';
  readonly cell: (row: Row) => string;
  /** Running text, which may be folded. */
  readonly flows?: true;
}

/** Columns between two columns. */
const GAP = 2;

/** Running text in less room than this is read more easily below. */
const LEAST_FLOW = 16;

/** Title line and rows, no wider than the terminal; no trailing blanks. */
export const table = <Row>(
  columns: readonly Column<Row>[],
  rows: readonly Row[],
  width = columnsOf(process.stdout),
): string => {
  const sized = columns.map(column => ({
    column,
    size: Math.max(...[column.title, ...rows.map(column.cell)].map(displayWidth)),
  }));
  const { beside, below } = laidOut(sized, width);
  const titles = gridLines(beside, ({ title }) => title);
  const body = rows.flatMap(row => [
    ...gridLines(beside, ({ cell }) => cell(row)),
    ...linesBelow(below, row, width),
  ]);
  return [...titles, ...body].map(line => `${line.replaceAll(NO_BREAK, ' ')}\n`).join('');
};

/** A column, and how wide it is. */
interface Sized<Row> {
  readonly column: Column<Row>;
  readonly size: number;
}

/** Which columns stand beside each other, and which below: running text first gives way. */
const laidOut = <Row>(sized: readonly Sized<Row>[], width: number) => {
  const total = (list: readonly Sized<Row>[]): number =>
    list.reduce((sum, { size }) => sum + size + GAP, -GAP);
  if (total(sized) <= width) return { beside: sized, below: [] };
  const fixed = sized.filter(({ column }) => !column.flows);
  const fitting = fixed.filter((_, index) => total(fixed.slice(0, index + 1)) <= width);
  const flowing = sized.filter(({ column }) => column.flows);
  const room = width - total(fitting) - GAP;
  const folded = flowing.length === 1 && fitting.length === fixed.length && room >= LEAST_FLOW;
  const beside = sized.flatMap(each => {
    if (fitting.includes(each)) return [each];
    return folded && each === flowing[0] ? [{ ...each, size: room }] : [];
  });
  return { beside, below: sized.filter(each => !beside.some(({ column }) => column === each.column)) };
};

/** The lines of a row: more than one where running text is folded. */
const gridLines = <Row>(
  columns: readonly Sized<Row>[],
  cell: (column: Column<Row>) => string,
): readonly string[] => {
  const cells = columns.map(({ column, size }) => (column.flows ? fold(cell(column), size) : [cell(column)]));
  const height = Math.max(...cells.map(lines => lines.length));
  return Array.from({ length: height }, (_, line) =>
    columns
      .map(({ column, size }, index) => {
        const text = cells[index]![line] ?? '';
        const fill = ' '.repeat(Math.max(0, size - displayWidth(text)));
        return column.align === 'right' ? fill + text : text + fill;
      })
      .join(' '.repeat(GAP))
      .trimEnd(),
  );
};

/** What has no room beside: short cells on a line together, running text on lines of its own. */
const linesBelow = <Row>(columns: readonly Sized<Row>[], row: Row, width: number): readonly string[] => {
  const named = ({ column: { title, cell } }: Sized<Row>): string =>
    cell(row) === '' ? '' : `${title}: ${cell(row)}`;
  const short = columns.filter(({ column }) => !column.flows).map(named);
  const texts = [
    short.filter(Boolean).join('; '),
    ...columns.filter(({ column }) => column.flows).map(named),
  ];
  return texts.filter(Boolean).flatMap(text => wrapped(`    ${text}`, width).split('\n'));
};
