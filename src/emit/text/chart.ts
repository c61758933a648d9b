/**
 * The chord chart of a tune as text: chord symbols over slashes, one slash a beat, "r" where no chord sounds,
 * measures in rows that are as wide as the terminal allows, four measures at most.
 */

import type { ChartMeasure, ChordChart } from '../../lesson/chords/chart.ts';
import type { ChordSheet } from '../../lesson/chords/sheet.ts';
import { creditLines } from '../../score/credits.ts';
import { metreName } from '../../score/names.ts';
import { type DiagramText, factLines, framesText, legendText } from './chords.ts';
import { chordText, textWriter } from './content.ts';
import { movedFacts } from './heading.ts';
import { SIGNS, timesWords } from './marks.ts';
import { Row } from './row.ts';
import { type Signs, signsFor } from './signs.ts';
import { displayWidth, fold } from './width.ts';

const PER_ROW = 4;

/** The chart with the frames of its chords, a line feed after each line. */
export const chartToText = (chart: ChordChart, sheet: ChordSheet, options: DiagramText): string => {
  const signs = signsFor(options.ascii);
  const write = textWriter(signs);
  const { tune } = chart;
  const title = write(options.title ?? tune.title ?? '');
  const credits = write(creditLines(tune).join(signs.separator));
  const heading = [
    ...[title, credits].filter(text => text !== '').flatMap(text => fold(text, options.width)),
    ...factLines(sheet, signs, options.width, movedFacts(tune)),
  ].map(line => options.paint('heading', line));
  const rights = tune.rights.flatMap(each => fold(write(each), options.width));
  const blocks = [
    heading,
    ...framesText(sheet, options),
    ...chartBlocks(chart, options),
    [...restLegend(chart), ...legendText(sheet, options.width), ...rights].map(line =>
      options.paint('legend', line),
    ),
  ];
  return blocks
    .filter(block => block.length > 0)
    .map(block => block.map(line => `${line.trimEnd()}\n`).join(''))
    .join('\n');
};

const restLegend = ({ measures }: ChordChart): readonly string[] =>
  measures.some(({ rests }) => rests.length > 0) ? [`${REST} rest`] : [];

const SLASH = '/';
const REST = 'r';

/** Something to be written from a column on: a symbol, and a slash or rest under it. */
interface Slot {
  readonly name: string;
  readonly beat: string;
  readonly width: number;
}

/** A measure whose slots have widths. */
interface Spaced {
  readonly measure: ChartMeasure;
  readonly slots: readonly Slot[];
  readonly width: number;
}

/** Rows of measures, columns of equal width where all measures fit so. */
const chartBlocks = (chart: ChordChart, { width, ascii, paint }: DiagramText): readonly string[][] => {
  const signs = signsFor(ascii);
  const sets = chart.measures.map(measure => spacedOut(measure, signs));
  const left = Math.max(metreName(sets[0]!.measure.time).length, numberWidth(chart.measures)) + 1;
  const widest = Math.max(...sets.map(set => set.width));
  // A pickup, or a measure that completes one, keeps its own width.
  const longest = Math.max(...chart.measures.map(({ length }) => length));
  const even = Math.min(PER_ROW, Math.floor((width - left - 4) / (widest + 4)));
  const rows = even >= 2 ? inRows(sets, even) : inRows(sets, 1);
  return rows.map((row, index) => {
    const lines = [new Row(), new Row(), new Row()] as const;
    const first = row[0]!.measure;
    const label = index === 0 ? metreName(first.time) : (first.number ?? '');
    lines[2].put(0, label, 'measure');
    let at = left;
    row.forEach((set, place) => {
      const before = row[place - 1]?.measure;
      at = drawBar(lines, at, before, set.measure);
      drawMeasure(lines, at, set, signs);
      at += even >= 2 && set.measure.length === longest ? widest : set.width;
    });
    drawBar(lines, at, row.at(-1)!.measure, undefined);
    return lines.map(line => line.render(0, paint)).filter((line, i) => i > 0 || line.trim() !== '');
  });
};

const numberWidth = (measures: readonly ChartMeasure[]): number =>
  Math.max(...measures.map(({ number }) => number?.length ?? 0));

/** A first measure shorter than the second hangs on to the first row. */
const inRows = (sets: readonly Spaced[], count: number): readonly (readonly Spaced[])[] => {
  const extra = sets.length > 1 && sets[0]!.measure.length < sets[1]!.measure.length && count > 1 ? 1 : 0;
  const rows = [sets.slice(0, count + extra)];
  for (let from = count + extra; from < sets.length; from += count) rows.push(sets.slice(from, from + count));
  return rows;
};

/** The moments of a measure: its beats, rests, and chords that come between them. */
const spacedOut = (measure: ChartMeasure, signs: Signs): Spaced => {
  const times = [...new Set([...measure.beats, ...measure.rests, ...measure.chords].map(({ at }) => at))];
  const slots = times
    .sort((a, b) => a - b)
    .map((at): Slot => {
      const name = measure.chords
        .filter(each => each.at === at)
        .map(({ symbol }) => chordText(symbol, signs))
        .join(' ');
      const isStruck = measure.beats.some(beat => beat.at === at && beat.chord !== undefined);
      const beat = isStruck ? SLASH : measure.rests.some(rest => rest.at === at) ? REST : '';
      return { name, beat, width: Math.max(3, displayWidth(name) + 1) };
    });
  const marks = marksOf(measure, signs);
  const needed = marks === '' ? 0 : displayWidth(marks) + 2;
  return {
    measure,
    slots,
    width: Math.max(
      needed,
      slots.reduce((sum, slot) => sum + slot.width, 1),
    ),
  };
};

type Lines = readonly [above: Row, names: Row, slashes: Row];

const drawMeasure = (
  [above, names, slashes]: Lines,
  from: number,
  { measure, slots }: Spaced,
  signs: Signs,
): void => {
  let at = from + 1;
  const signsAbove = marksOf(measure, signs);
  if (signsAbove !== '') above.put(at, signsAbove, 'mark');
  for (const { name, beat, width } of slots) {
    names.put(at, name, 'chord');
    if (beat !== '') slashes.put(at, beat, 'rhythm');
    at += width;
  }
};

/** Metres within the chart, endings, rehearsal marks, jumps, and how often a repeat is played, in words. */
const marksOf = ({ index, time, left, right, marks }: ChartMeasure, signs: Signs): string =>
  [
    ...(index > 0 && time ? [metreName(time)] : []),
    ...(left.ending ? [`[${left.ending.text || left.ending.numbers.join(', ')}.`.replace(/\.\.$/, '.')] : []),
    ...marks.map(mark => (mark.kind === 'sign' ? SIGNS[mark.sign] : mark.text)),
    ...timesWords(right),
  ]
    .map(textWriter(signs))
    .join(' ');

/** Draws the bar line between two measures and answers the column after it. */
const drawBar = (
  lines: Lines,
  at: number,
  left: ChartMeasure | undefined,
  right: ChartMeasure | undefined,
): number => {
  const ends = left?.right.repeat ?? false;
  const starts = right?.left.repeat ?? false;
  const heavy = left && left.right.style !== 'regular' && left.right.style !== 'none';
  const sign = ends || starts ? `${ends ? ':' : ''}|${starts ? ':' : ''}` : heavy ? '||' : '|';
  lines[2].put(at, sign, 'staff');
  return at + sign.length;
};
