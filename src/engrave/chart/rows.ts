/** The rows of a chord chart: the marks of its measures, and what stands over and between them. */
import type { ChartMeasure, ChordChart } from '../../lesson/chords/chart.ts';
import { endingLabel } from '../content/ending-label.ts';
import type { Mark } from '../drawing/mark.ts';
import { bounds, move } from '../drawing/mark.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { barMarks, CHART, hasSigns, measureMarks, metreMarks, SIGN_GAP, signMarks } from './measure.ts';
import { type RowWidths, rowWidths } from './widths.ts';

export interface ChartRow {
  readonly first: ChartMeasure;
  readonly last: ChartMeasure;
  /** By index of the measure in the tune; what belongs to the row as a whole at −1. */
  readonly marks: ReadonlyMap<number, readonly Mark[]>;
  /** From the middle of the slashes to the row's upper edge, and to its lower one. mm. */
  readonly above: number;
  readonly below: number;
}

/** Measures in a row. */
const PER_ROW = 4;

/** Rows from x = 0, each as wide as `width` where it is full. */
export function chartRows(chart: ChordChart, width: number, perRow = PER_ROW): readonly ChartRow[] {
  const indent = Math.max(...chart.measures.map(measure => metreMarks(measure).width)) + 2;
  const { rows, hanging, ...widths } = rowWidths(chart, width - indent, perRow);
  const style: RowStyle = { ...widths, under: underEndings(chart.measures) };
  return rows.map((row, index) =>
    drawRow(row, style, indent + (index > 0 ? hanging : 0), rows[index - 1]?.at(-1)),
  );
}

interface RowStyle extends Pick<RowWidths, 'widthOf' | 'size'> {
  /** Indices of measures under an ending. */
  readonly under: ReadonlySet<number>;
}

/** With room for the number of a measure. */
const ABOVE = -CHART.top + 3;
const SIGNS = 5;
const ENDING = 5.5;

function drawRow(
  row: readonly ChartMeasure[],
  { widthOf, under, size }: RowStyle,
  indent: number,
  before: ChartMeasure | undefined,
): ChartRow {
  const marks = new Map<number, readonly Mark[]>();
  const hasEndings = row.some(({ index }) => under.has(index));
  const first = row[0]!;
  const last = row.at(-1)!;
  const number = numberMarks(first, before, indent, hasEndings && first.left.ending !== undefined);
  const besideNumber = Math.max(0, ...number.map(mark => bounds(mark).right - indent + SIGN_GAP));
  let x = indent;
  row.forEach((measure, index) => {
    const width = widthOf(measure);
    const signs = move(
      signMarks(measure, index === 0 ? besideNumber : 0, width),
      x,
      hasEndings ? -ENDING : 0,
    );
    const next = row[index + 1];
    marks.set(measure.index, [
      ...move(measureMarks(measure, width, size), x, 0),
      ...signs,
      ...barMarks(measure, next, x + width),
      ...(under.has(measure.index) ? endingMarks(measure, x, width) : []),
    ]);
    x += width;
  });
  const metre = first.time || before === undefined ? metreMarks(first) : { marks: [] as Mark[], width: 0 };
  marks.set(-1, [...metre.marks, ...barMarks(undefined, first, indent), ...number]);
  return {
    first,
    last,
    marks,
    above: ABOVE + (hasEndings ? ENDING : 0) + (row.some(hasSigns) ? SIGNS : 0),
    below: CHART.bottom,
  };
}

const ENDING_TEXT = 3.3;

/** The bracket over an ending, with its number where it starts and a jog where it is closed. */
function endingMarks({ left, right }: ChartMeasure, x: number, width: number): Mark[] {
  const y = CHART.top - ENDING + 0.8;
  const low = CHART.top - 1;
  const line = { kind: 'line', role: 'ending', thickness: 0.3 } as const;
  const from = x + (left.ending ? 0.6 : 0);
  const to = x + width - (right.ending ? 0.6 : 0);
  return [
    { ...line, x1: from, y1: y, x2: to, y2: y },
    ...(left.ending ? [{ ...line, x1: from, y1: y - 0.15, x2: from, y2: low }] : []),
    ...(left.ending
      ? anchoredText(
          endingLabel(left.ending),
          { role: 'ending', face: 'serifBold', size: ENDING_TEXT },
          from + 1.1,
          y + 3.1,
          'start',
        )
      : []),
    ...(right.ending?.close === 'closed' ? [{ ...line, x1: to, y1: y - 0.15, x2: to, y2: low }] : []),
  ];
}

/** Indices of the measures that lie under an ending. */
function underEndings(measures: readonly ChartMeasure[]): ReadonlySet<number> {
  const under = new Set<number>();
  let open = false;
  for (const { index, left, right } of measures) {
    if (left.ending) open = true;
    if (open) under.add(index);
    if (right.ending) open = false;
  }
  return under;
}

/** The number of a row's first measure, from the second row on. */
function numberMarks(
  { number }: ChartMeasure,
  before: ChartMeasure | undefined,
  x: number,
  raised: boolean,
): Mark[] {
  if (!before || number === undefined) return [];
  const y = CHART.top - 1 - (raised ? ENDING : 0);
  return anchoredText(number, { role: 'number', face: 'serifItalic', size: 2.9 }, x, y, 'start');
}
