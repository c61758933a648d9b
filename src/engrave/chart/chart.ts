/** The chord chart of a tune on pages: frames of its chords on top, then its measures in rows. */

import type { ChordChart } from '../../lesson/chords/chart.ts';
import type { ChordSheet } from '../../lesson/chords/sheet.ts';
import { creditLines } from '../../score/credits.ts';
import type { Tune } from '../../score/tune.ts';
import { move } from '../drawing/mark.ts';
import { pageFrame } from '../options.ts';
import { movedLines } from '../page/heading.ts';
import type { Group, Page } from '../page.ts';
import { frameRows } from './frames.ts';
import { diagramPages, roomBetween, type Words } from './head.ts';
import { type Block, onPages } from './pages.ts';
import { type ChartRow, chartRows } from './rows.ts';
import { cautionLines, type DiagramOptions, rowGroup, sheetLines } from './sheet.ts';

/** Frames on a chart are smaller than on a sheet of shapes. */
const FRAME_SCALE = 0.8;

/** Between the frames and the chart, mm. */
const BELOW_FRAMES = 2.5;

/** Between rows, from least to most, mm. */
const BETWEEN_ROWS = [3, 9] as const;

/** Engraves the chart of a tune with the shapes of its chords. */
export function engraveChart(chart: ChordChart, sheet: ChordSheet, options: DiagramOptions): readonly Page[] {
  const { tune } = chart;
  const frame = pageFrame({ ...options, sheet: 'tab' });
  const width = frame.width - 2 * frame.margin;
  const words = wordsOf(tune, sheet, options);
  const leftHanded = options.leftHanded ?? false;
  const frames = frameRows(sheet, width, { scale: FRAME_SCALE, leftHanded });
  const above: Block[] = frames.map((row, index) => ({
    height: row.height,
    after: index === frames.length - 1 ? [BELOW_FRAMES, BELOW_FRAMES] : [0, 0],
    draw: y => [rowGroup(row, index, frame.margin, y)],
  }));
  const rows = chartRows(chart, width, options.measuresPerSystem);
  const below = rows.map(
    (row, index): Block => ({
      height: row.above + row.below,
      after: BETWEEN_ROWS,
      draw: y => rowGroups(row, index, frame.margin, y + row.above),
    }),
  );
  return diagramPages(
    words,
    frame,
    onPages([...above, ...below], page => roomBetween(words, frame, page)),
  );
}

function rowGroups({ marks, first, last }: ChartRow, index: number, x: number, y: number): readonly Group[] {
  const label =
    first.number === last.number || last.number === undefined
      ? `Measure ${first.number ?? 1}`
      : `Measures ${first.number ?? 1}–${last.number}`;
  return [...marks]
    .sort(([a], [b]) => a - b)
    .map(
      ([measure, list]): Group =>
        measure < 0
          ? { id: `system-${index + 1}`, className: 'system', label, marks: move(list, x, y) }
          : { id: `measure-${measure + 1}`, className: 'measure', marks: move(list, x, y) },
    );
}

const wordsOf = (tune: Tune, sheet: ChordSheet, options: DiagramOptions): Words => ({
  title: options.title ?? tune.title ?? '',
  subtitle: options.subtitle,
  left: [...sheetLines(sheet), ...movedLines(tune)],
  right: creditLines(tune),
  foot: [...cautionLines(sheet), ...tune.rights],
  footer: options.footer,
  author: tune.composer,
});
