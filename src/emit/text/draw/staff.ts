/** The staff: lines, bar lines, signatures, heads with their accidentals and ledger lines. */
import { Row } from '../row.ts';
import { TOP_LINE } from '../signature.ts';
import type { Signs } from '../signs.ts';
import type { System } from '../systems.ts';
import { drawBars } from './bars.ts';

/** Positions of the spaces beside the middle line, where a repeat has its dots. */
const DOT_SPACES: readonly number[] = [3, 5];

/** Rows of the staff from the highest position that holds anything to the lowest. */
export const staffRows = (system: System, signs: Signs): readonly Row[] => {
  const rows = emptyRows(system);
  for (const [position, row] of rows) {
    if (position < 0 || position > TOP_LINE) continue;
    const line = position % 2 === 0;
    if (line) row.fill(system.left, system.width, signs.line, 'staff');
    const edge = position === TOP_LINE ? 'top' : position === 0 ? 'bottom' : 'inner';
    const dots = DOT_SPACES.includes(position);
    drawBars(row, system, signs, { edge: line ? edge : 'space', dots });
  }
  drawSignatures(system, rows);
  drawHeads(system, rows, signs);
  return [...rows.values()];
};

const emptyRows = (system: System): ReadonlyMap<number, Row> => {
  const positions = [0, TOP_LINE];
  for (const { measure, signature } of system.measures) {
    for (const sign of signature?.placed.signs ?? []) positions.push(sign.position);
    for (const { heads, placed } of measure.entries) {
      positions.push(...heads.map(head => head.position));
      for (const sign of placed?.signs ?? []) positions.push(sign.position);
    }
  }
  const highest = Math.max(...positions);
  const rows = new Map<number, Row>();
  for (let position = highest; position >= Math.min(...positions); position--) rows.set(position, new Row());
  return rows;
};

const drawSignatures = ({ measures }: System, rows: ReadonlyMap<number, Row>): void => {
  for (const { measure, start, signature } of measures) {
    const inner = measure.entries.map(({ x, placed }) => placed && { column: start + x, placed });
    for (const each of [signature, ...inner])
      for (const { dx, position, text } of each?.placed.signs ?? [])
        rows.get(position)!.put(each!.column + dx, text, 'head');
  }
};

const MIDDLE_LINE = 4;
const REST = 'r';

const drawHeads = ({ measures }: System, rows: ReadonlyMap<number, Row>, signs: Signs): void => {
  for (const { measure, start } of measures)
    for (const { x, heads, rest } of measure.entries) {
      const column = start + x;
      if (rest) rows.get(MIDDLE_LINE)!.put(column, REST, 'head');
      for (const { position } of heads) drawLedgers(rows, column, position, signs);
      for (const { position, sign, accidental } of heads) {
        const row = rows.get(position)!;
        row.put(column - accidental.length, accidental, 'head');
        row.put(column, sign, 'head');
      }
    }
};

/** Short lines through and between the staff and a head outside it. */
const drawLedgers = (rows: ReadonlyMap<number, Row>, column: number, head: number, signs: Signs): void => {
  const ledger = (position: number): void =>
    rows.get(position)!.fill(column - 1, column + 2, signs.line, 'staff');
  for (let position = TOP_LINE + 2; position <= head; position += 2) ledger(position);
  for (let position = -2; position >= head; position -= 2) ledger(position);
};
