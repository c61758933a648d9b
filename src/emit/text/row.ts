/** One line of the grid: cells of one column each, each with the role that it is painted in. */
import { displayWidth, graphemes } from './width.ts';

/** What a piece of text is, for whoever paints it. */
export type TextRole =
  | 'heading'
  | 'measure'
  | 'mark'
  | 'chord'
  | 'staff'
  | 'head'
  | 'rhythm'
  | 'finger'
  | 'letter'
  | 'lyric'
  | 'string'
  | 'digit'
  | 'outside'
  | 'legend';

/** Wraps a piece of text in what colours it. */
export type Paint = (role: TextRole, text: string) => string;

interface Cell {
  /** Empty in the second column of a wide character. */
  readonly text: string;
  readonly role: TextRole;
}

/** A line under construction; what is put later stands over what was put before. */
export class Row {
  readonly #cells: (Cell | undefined)[] = [];

  /** Columns up to and with the last one that is filled. */
  get width(): number {
    return this.#cells.length;
  }

  put(column: number, text: string, role: TextRole): void {
    let at = column;
    for (const grapheme of graphemes(text)) {
      const width = displayWidth(grapheme);
      if (width === 0) continue;
      this.#cells[at] = { text: grapheme, role };
      if (width === 2) this.#cells[at + 1] = { text: '', role };
      at += width;
    }
  }

  /** Fills the columns from `from` up to, not with, `to` with a sign of one column. */
  fill(from: number, to: number, sign: string, role: TextRole): void {
    const cell: Cell = { text: sign, role };
    for (let column = from; column < to; column++) this.#cells[column] = cell;
  }

  /** Is nothing there from `from` up to, not with, `to`? */
  isFree(from: number, to: number): boolean {
    for (let column = Math.max(0, from); column < to; column++) if (this.#cells[column]) return false;
    return true;
  }

  /** The line, filled up with spaces to `width` columns; neighbours of one role are painted together. */
  render(width: number, paint: Paint): string {
    let line = '';
    let run = '';
    let role: TextRole | undefined;
    const flush = (): void => {
      line += role === undefined ? run : paint(role, run);
      run = '';
    };
    for (let column = 0; column < Math.max(width, this.width); column++) {
      const cell = this.#cells[column];
      if (cell?.role !== role) {
        flush();
        role = cell?.role;
      }
      run += cell?.text ?? ' ';
    }
    flush();
    return line;
  }
}
