/**
 * How many measures stand in each row of a chart, how wide they are, and how large its chord symbols. All
 * measures are equally wide, so that bar lines stand below each other. One whose symbols need more room, or that
 * lasts longer than its metre, takes it from the others of its row; symbols are set smaller before a row holds
 * fewer measures than it would.
 */
import type { ChartMeasure, ChordChart } from '../../lesson/chords/chart.ts';
import { beatsOf } from '../../score/beats.ts';
import { CHART, fittingSize, neededWidth } from './measure.ts';

export interface RowWidths {
  readonly rows: readonly (readonly ChartMeasure[])[];
  /** mm. */
  readonly widthOf: (measure: ChartMeasure) => number;
  /** By how much a pickup hangs out at the left, so that bar lines stand below each other. mm. */
  readonly hanging: number;
  /** Em of all chord symbols, mm. */
  readonly size: number;
}

/** Sizes of chord symbols, as shares of the full one: the first with which the rows hold their measures. */
const SIZES = [1, 0.95, 0.9, 0.85, 0.8] as const;

/** Of its usual width, a measure gives away no more than the rest. */
const KEPT = 0.75;

/** A measure, and how wide it is where nothing is crowded; in mm. */
interface Cell {
  readonly measure: ChartMeasure;
  readonly usual: number;
  /** As much of that as decides how many measures a row has: of a long one, what it would last in its metre. */
  readonly counted: number;
}

/** Rows that are `width` wide where they are full. */
export function rowWidths({ tune, measures }: ChordChart, width: number, perRow: number): RowWidths {
  const shares = measures.map(measure => shareOf(tune, measure));
  const pickup = measures.length > 1 && shares[0]! < 1 ? shares[0]! : 0;
  const unit = width / (pickup + perRow);
  const hanging = unit * pickup;
  const cells = measures.map((measure, index): Cell => {
    const share = shares[index]!;
    return { measure, usual: unit * share, counted: unit * Math.min(1, share) };
  });
  const room = (row: number) => width - (row === 0 ? 0 : hanging);
  const rows = inRows(cells, room, SIZES.at(-1)! * CHART.name);
  const fits = (share: number) =>
    rows.every(
      (row, index) => sum(row.map(cell => least(cell, share * CHART.name))) <= room(index) + ROUNDING,
    );
  const asked = CHART.name * (SIZES.find(fits) ?? SIZES.at(-1)!);
  const widths = new Map(
    rows.flatMap((row, index) => {
      const full = isFull(row, rows[index + 1], room(index));
      return sharedOut(row, asked, room(index), full).map((each, i) => [row[i]!.measure, each] as const);
    }),
  );
  const widthOf = (measure: ChartMeasure) => widths.get(measure)!;
  const size = Math.min(asked, ...measures.map(each => fittingSize(each, widthOf(each), asked)));
  return { rows: rows.map(row => row.map(({ measure }) => measure)), widthOf, hanging, size };
}

const ROUNDING = 1e-6;
const sum = (lengths: readonly number[]): number => lengths.reduce((total, each) => total + each, 0);

/** How much of a whole measure each one lasts, a quarter of one at least. */
function shareOf({ division, measures }: ChordChart['tune'], { index, length }: ChartMeasure): number {
  const whole = beatsOf(measures[index]!.time, division).reduce((total, beat) => total + beat, 0);
  return Math.min(2, Math.max(0.25, length / whole));
}

/** The least width of a measure whose symbols have that size. */
const least = ({ measure, usual }: Cell, size: number): number =>
  Math.max(usual * KEPT, neededWidth(measure, size));

/**
 * As many measures in each row as usual; one more where it is an ending in place of the one before it; and fewer
 * where they would not fit with symbols of that size, or where a new metre begins, which stands before a row.
 */
function inRows(
  cells: readonly Cell[],
  room: (row: number) => number,
  size: number,
): readonly (readonly Cell[])[] {
  const rows: Cell[][] = [];
  for (const cell of cells) {
    const row = rows.at(-1);
    const together = [...(row ?? []), cell];
    const free = room(rows.length - 1) + ROUNDING;
    const usual = isOtherEnding(row?.at(-1), cell) || sum(together.map(each => each.counted)) <= free;
    const goesOn = usual && cell.measure.time === undefined;
    if (row && goesOn && sum(together.map(each => least(each, size))) <= free) row.push(cell);
    else rows.push([cell]);
  }
  return rows;
}

/** Whether a measure is a whole ending, and follows another one. */
const isOtherEnding = (before: Cell | undefined, { measure: { left, right } }: Cell): boolean =>
  before?.measure.right.ending !== undefined && left.ending !== undefined && right.ending !== undefined;

/** Whether a row has no room for the measure after it because of its symbols, and so is set to the full width. */
const isFull = (row: readonly Cell[], next: readonly Cell[] | undefined, room: number): boolean =>
  next !== undefined &&
  next[0]!.measure.time === undefined &&
  sum([...row, next[0]!].map(({ counted }) => counted)) <= room + ROUNDING;

/**
 * Widths of a row's measures: what each needs, or the same part of its usual width. A row that is not full is no
 * wider than its measures need.
 */
function sharedOut(row: readonly Cell[], size: number, room: number, full: boolean): readonly number[] {
  const needs = row.map(({ measure }) => neededWidth(measure, size));
  const wished = sum(row.map(({ usual }, index) => Math.max(usual, needs[index]!)));
  const total = full ? room : Math.min(room, wished);
  const widthsAt = (part: number) => row.map(({ usual }, index) => Math.max(part * usual, needs[index]!));
  let [low, high] = [0, room / Math.min(...row.map(({ usual }) => usual))];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (sum(widthsAt(middle)) < total) low = middle;
    else high = middle;
  }
  const widths = widthsAt(low);
  const excess = sum(widths) / total;
  return widths.map(each => each / excess);
}
