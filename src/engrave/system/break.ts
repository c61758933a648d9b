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
import { gapLength, lengthAt, type Node, type Strip, stretchFor, strip } from './strip.ts';

export interface Line {
  /** Indices of measures, inclusive. */
  readonly first: number;
  readonly last: number;
  readonly strip: Strip;
  readonly stretch: number;
}

/** A last system that fills less than this part of the width looks short, … */
const FULL = 0.66;
/** … and is justified if, spaced as the others are, it would fill more than this. */
const NEARLY_FULL = 0.85;
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
  return { first, last, strip: row, stretch };
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

/** Measures of a line, a pickup not counted. */
const sizeOf = ({ first, last }: Line, pickup: number): number =>
  last - first + 1 - (first === 0 ? pickup : 0);

/** What a line costs after one of `before` measures (0 for none). */
function lineCost(
  line: Line,
  before: number,
  pickup: number,
  measured: Measured,
  choices: BreakChoices,
): number {
  const { measures } = measured.notation.tune;
  const { width, density, options } = choices;
  const { last } = line;
  const ends = last === measures.length - 1;
  const size = sizeOf(line, pickup);
  const fit = ends
    ? lastCost(line, width, density)
    : stretchCost({ ...line, stretch: line.stretch / density });
  const missing = options.measuresPerSystem === undefined || ends ? 0 : options.measuresPerSystem - size;
  const uneven = before > 0 && (!ends || size > before) ? Math.abs(before - size) : 0;
  const music = breakCost(measures[last]!, measures[last + 1], last + 1 - pickup);
  return fit + 50 * missing + 0.05 * uneven + music;
}

interface Best {
  readonly cost: number;
  readonly line: Line | undefined;
}

/** Breaks a tune into systems. */
export function breakSystems(measured: Measured, choices: BreakChoices): Line[] {
  const { measures } = measured.notation.tune;
  const { width, options } = choices;
  const pickup = measures[0]?.implicit || measures[0]?.number === '0' ? 1 : 0;
  const most = options.measuresPerSystem ?? Infinity;
  /** The cheapest way to set the measures before each index. */
  const best: Best[] = [{ cost: 0, line: undefined }];
  for (let first = 0; first < measures.length; first++) {
    const before = best[first]!;
    const sizeBefore = before.line ? sizeOf(before.line, pickup) : 0;
    for (let last = first; last < measures.length; last++) {
      if (last > first && isForced(measures[last], options)) break;
      const line = lineOf(measured, first, last, width);
      if (last > first && (line.stretch < TIGHTEST * 0.8 || sizeOf(line, pickup) > most)) break;
      const cost = before.cost + lineCost(line, sizeBefore, pickup, measured, choices);
      if (!best[last + 1] || cost < best[last + 1]!.cost) best[last + 1] = { cost, line };
    }
  }
  const lines: Line[] = [];
  for (let end = measures.length; end > 0; end = lines[0]!.first) lines.unshift(best[end]!.line!);
  return settleLast(lines, width);
}

/** A last system that does not fill the width is spaced as the others are. */
function settleLast(lines: readonly Line[], width: number): Line[] {
  const others = lines.slice(0, -1);
  const last = lines.at(-1)!;
  const mean = others.reduce((sum, line) => sum + line.stretch, 0) / others.length || 1;
  const full = stretchFor(last.strip.gaps, width - last.strip.solid);
  const loose = Math.max(1, mean);
  const filled = lengthAt(last.strip, loose) / width;
  return [...others, { ...last, stretch: filled > NEARLY_FULL ? full : Math.min(full, loose) }];
}

/** The last system may be loose, but a lone measure or two at its start look forgotten. */
function lastCost(line: Line, width: number, density: number): number {
  const full = lengthAt(line.strip, 1) / width;
  if (full * density > 1) return stretchCost({ ...line, stretch: line.stretch / density });
  return full < FULL ? 1.5 * (FULL - full) + (line.last === line.first ? 2 : 0) : 0;
}
