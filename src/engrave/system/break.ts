/**
 * Where systems end: for the whole tune at once, by dynamic programming over the bar lines, as good
 * typesetting breaks a paragraph. Cost is the squared logarithm of each system's stretch, less where a
 * phrase or section ends, more where a system has another number of measures than most.
 */
import type { TuneMeasure } from '../../score/tune.ts';
import type { Notation } from '../content/notation.ts';
import { endBar, innerBar, startBar } from '../measure/bars.ts';
import type { Column } from '../measure/column.ts';
import type { SheetOptions } from '../options.ts';
import { gapLength, type Node, naturalLength, type Strip, stretchFor, strip } from './strip.ts';

export interface Line {
  /** Indices of measures, inclusive. */
  readonly first: number;
  readonly last: number;
  readonly strip: Strip;
  readonly stretch: number;
}

/** The last system keeps its natural spacing if it would fill less than this part of the width. */
const FULL = 0.66;
const TIGHTEST = 0.62;

/** Everything that breaking needs to know about a tune. */
export interface Measured {
  readonly notation: Notation;
  readonly columns: readonly (readonly Column[])[];
}

function nodesOf({ notation, columns }: Measured, first: number, last: number): Node[] {
  const { measures } = notation.tune;
  const bar = (
    node: Extract<Node, { kind: 'bar' }>['bar'],
    measure: number,
    edge: 'start' | 'inner' | 'end',
  ): Node => ({
    kind: 'bar',
    bar: node,
    width: node.width,
    measure,
    edge,
  });
  const nodes: Node[] = [bar(startBar(notation, measures[first]!, first === 0), first, 'start')];
  for (let index = first; index <= last; index++) {
    for (const column of columns[index]!) nodes.push({ kind: 'column', column, width: 0 });
    const next = measures[index + 1];
    if (index === last) nodes.push(bar(endBar(notation, measures[index]!, next), index, 'end'));
    else nodes.push(bar(innerBar(notation, measures[index]!, next!), index, 'inner'));
  }
  return nodes;
}

/** One system, stretched to a width. */
export function lineOf(measured: Measured, first: number, last: number, width: number): Line {
  const row = strip(nodesOf(measured, first, last));
  const stretch = stretchFor(row.gaps, width - row.solid);
  const isLast = last === measured.notation.tune.measures.length - 1;
  const short = isLast && naturalLength(row) < FULL * width;
  return { first, last, strip: row, stretch: short ? Math.min(1, stretch) : stretch };
}

/** How much longer than the width a system's unyielding parts are: above 1 where a measure is too full for it. */
export const overfull = ({ strip: row }: Line, width: number): number =>
  row.gaps.reduce((sum, gap) => sum + gapLength(gap, 0), row.solid) / width;

/** How well a break after a measure suits the music: negative is welcome. */
function breakCost(left: TuneMeasure, right: TuneMeasure | undefined, phrase: number): number {
  if (!right) return 0;
  const section =
    left.right.style !== 'regular' || left.right.repeat || right.left.repeat || right.left.style === 'double';
  const ending = right.left.ending !== undefined;
  return (
    (section ? -0.25 : 0) + (phrase % 4 === 0 ? -0.25 : phrase % 2 === 0 ? -0.06 : 0) + (ending ? 0.1 : 0)
  );
}

function stretchCost({ stretch }: Line): number {
  if (stretch < TIGHTEST) return 1e4 * (1 + TIGHTEST - stretch);
  const logarithm = Math.log(Math.min(stretch, 20));
  return 4 * logarithm * logarithm * (stretch < 1 ? 2 : 1);
}

export interface BreakChoices {
  readonly width: number;
  /** Below 1: set tighter, to save a system. */
  readonly density: number;
  readonly options: SheetOptions;
}

function isForced(measure: TuneMeasure | undefined, options: SheetOptions): boolean {
  return options.keepBreaks === true && measure?.breakBefore !== undefined;
}

/** Breaks a tune into systems. */
export function breakSystems(measured: Measured, { width, density, options }: BreakChoices): Line[] {
  const { measures } = measured.notation.tune;
  const count = measures.length;
  const pickup = measures[0]?.implicit || measures[0]?.number === '0' ? 1 : 0;
  const best: { cost: number; line: Line | undefined; count: number }[] = [
    { cost: 0, line: undefined, count: 0 },
  ];
  for (let end = 1; end <= count; end++) best.push({ cost: Infinity, line: undefined, count: 0 });
  for (let first = 0; first < count; first++) {
    const before = best[first]!;
    if (before.cost === Infinity) continue;
    for (let last = first; last < count; last++) {
      if (last > first && isForced(measures[last], options)) break;
      const line = lineOf(measured, first, last, width);
      const tooLong = line.stretch < TIGHTEST * 0.8 && last > first;
      if (tooLong) break;
      const size = last - first + 1 - (first === 0 ? pickup : 0);
      const asked = options.measuresPerSystem;
      if (asked !== undefined && size > asked) break;
      const fit =
        last === count - 1
          ? lastCost(line, width)
          : stretchCost({ ...line, stretch: line.stretch / density });
      const wanted = asked !== undefined && last < count - 1 ? 50 * (asked - size) : 0;
      const uneven = before.count > 0 && last < count - 1 ? 0.05 * Math.abs(before.count - size) : 0;
      const cost =
        before.cost +
        fit +
        wanted +
        uneven +
        breakCost(measures[last]!, measures[last + 1], last + 1 - pickup);
      if (cost < best[last + 1]!.cost) best[last + 1] = { cost, line, count: size };
    }
  }
  const lines: Line[] = [];
  for (let end = count; end > 0; end = lines[0]!.first) lines.unshift(best[end]!.line!);
  return lines;
}

/** The last system may be loose, but a lone measure or two at its start look forgotten. */
function lastCost(line: Line, width: number): number {
  const full = naturalLength(line.strip) / width;
  if (full > 1) return stretchCost(line);
  return full < FULL ? 1.2 * (FULL - full) + (line.last === line.first ? 0.5 : 0) : 0;
}
