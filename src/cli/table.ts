/** Tables of aligned columns for a terminal. */

export interface Column<Row> {
  readonly title: string;
  readonly align: 'left' | 'right';
  readonly cell: (row: Row) => string;
}

/** Title line and rows, columns two spaces apart; no trailing blanks. */
export const table = <Row>(columns: readonly Column<Row>[], rows: readonly Row[]): string => {
  const lines = [columns.map(({ title }) => title), ...rows.map(row => columns.map(({ cell }) => cell(row)))];
  const widths = columns.map((_, index) => Math.max(...lines.map(cells => cells[index]!.length)));
  return lines
    .map(cells =>
      cells
        .map((cell, index) =>
          columns[index]!.align === 'right' ? cell.padStart(widths[index]!) : cell.padEnd(widths[index]!),
        )
        .join('  ')
        .trimEnd(),
    )
    .map(line => `${line}\n`)
    .join('');
};
