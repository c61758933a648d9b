/** Bar lines through one row, with the arms that box-drawing characters need to meet the lines. */
import type { Row } from '../row.ts';
import type { Signs } from '../signs.ts';
import type { System } from '../systems.ts';

interface RowKind {
  /** Which line of the staff or tablature the row is; `space` between two lines. */
  readonly edge: 'top' | 'inner' | 'bottom' | 'space';
  /** Whether a repeat has a dot in this row. */
  readonly dots: boolean;
}

const EDGES = { top: 0, inner: 1, bottom: 2 } as const;

export const drawBars = (row: Row, system: System, signs: Signs, { edge, dots }: RowKind): void => {
  for (const { column: first, columns } of system.bars)
    columns.forEach((kind, index) => {
      const column = first + index;
      const strokes = signs.bars[kind];
      const ends = column === system.left ? 'right' : column === system.width - 1 ? 'left' : 'both';
      const dotted = dots && kind === 'dots';
      const sign = dotted ? signs.repeatDot : edge === 'space' ? strokes.plain : strokes[ends][EDGES[edge]];
      if (sign !== ' ') row.put(column, sign, 'staff');
    });
};
