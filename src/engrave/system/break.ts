/**
 * Where systems end: for the whole tune at once, by dynamic programming over the bar lines, as good
 * typesetting breaks a paragraph. Cost is the squared logarithm of each system's stretch, less where a
 * phrase or section ends, more where a system has another number of measures than most.
 */
import type { TuneMeasure } from '../../score/tune.ts';
import type { Notation } from '../content/notation.ts';
import { pickupLength } from '../content/phrases.ts';
import type { SheetOptions } from '../options.ts';
import type { Measured, Systems } from './possible.ts';
import { lengthAt, type Strip, stretchFor } from './strip.ts';

export interface Line {
  /** Indices of measures, inclusive. */
  readonly first: number;
  readonly last: number;
  readonly strip: Strip;
  readonly stretch: number;
}

/** The line from one measure to another (indices, inclusive), of a certain width. */
export type Lines = (first: number, last: number) => Line;

/** The lines of a width, each made once: what they cost depends on more than that. */
export function linesOf(systems: Systems, width: number): Lines {
  const known: Line[][] = [];
  return (first, last) => {
    known[first] ??= [];
    const lines = known[first];
    for (let index = first + lines.length; index <= last; index++) {
      const strip = systems(first, index);
      lines.push({
        first,
        last: index,
        strip,
        stretch: stretchFor(strip.gaps, strip.rods, width - strip.solid),
      });
    }
    return lines[last - first]!;
  };
}

/** A last system that fills less than this part of the width stays at its natural width. */
const FULL = 0.66;
const TIGHTEST = 0.62;

/** How much longer than the width a system's unyielding parts are: above 1 where a measure is too full for it. */
export const overfull = ({ strip }: Line, width: number): number => strip.least / width;

/** What the music makes of breaks: beside a stretch of 1.3 or so, which costs as much as a phrase is worth. */
const PHRASE = 0.3;
const SECTION = 0.25;
const FOUR_MEASURES = 0.2;
const TWO_MEASURES = 0.05;
/** For each measure by which a system differs from the one before. */
const UNEVEN = 0.05;
/** For each system, about what a good break is worth, so that good breaks make no more systems. */
const A_LINE = 0.35;

/** How well a break after a measure suits the music: negative is welcome. `count` measures came before it. */
function breakCost({ tune, phraseEnds }: Notation, index: number, count: number): number {
  const [left, right] = [tune.measures[index]!, tune.measures[index + 1]];
  if (!right) return 0;
  const section =
    left.right.style !== 'regular' || left.right.repeat || right.left.repeat || right.left.style === 'double';
  const ending = right.left.ending !== undefined;
  const regular = count % 4 === 0 ? FOUR_MEASURES : count % 2 === 0 ? TWO_MEASURES : 0;
  return (section ? -SECTION : 0) - regular - PHRASE * phraseEnds[index]! + (ending ? 0.1 : 0);
}

function stretchCost(stretch: number): number {
  if (stretch < TIGHTEST) return 1e4 * (1 + TIGHTEST - stretch);
  const logarithm = Math.log(Math.min(stretch, 20));
  return 4 * logarithm * logarithm * (stretch < 1 ? 2 : 1);
}

/** A system where so much of the width may not yield is crowded: its words stand shoulder to shoulder. */
const CROWDED = 0.88;
const CROWDING = 8;

const crowding = (line: Line, width: number): number =>
  CROWDING * Math.max(0, overfull(line, width) - CROWDED);

export interface BreakChoices {
  readonly width: number;
  /** Below 1: set tighter, to save a system. */
  readonly density: number;
  readonly options: SheetOptions;
}

function isForced(measure: TuneMeasure | undefined, options: SheetOptions): boolean {
  return options.keepBreaks === true && measure?.breakBefore !== undefined;
}

/** Measures that are but a pickup: one or none. */
const pickupOf = ({ tune }: Notation): number => (pickupLength(tune) > 0 ? 1 : 0);

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
  const fit = ends ? lastCost(line, width, density) : stretchCost(line.stretch / density);
  const missing = options.measuresPerSystem === undefined || ends ? 0 : options.measuresPerSystem - size;
  const uneven = before > 0 && (!ends || size > before) ? Math.abs(before - size) : 0;
  const music = breakCost(measured.notation, last, last + 1 - pickup);
  const crowd = density < 1 ? 0 : crowding(line, width);
  return fit + crowd + 50 * missing + UNEVEN * uneven + music + A_LINE;
}

/** How well the systems of a tune end where its phrases do and are like each other: more is better. */
export function breakQuality({ notation }: Measured, lines: readonly Line[]): number {
  const pickup = pickupOf(notation);
  const sizes = lines.map(line => sizeOf(line, pickup));
  const costs = lines.map(({ last }, i) => {
    const uneven = i > 0 ? Math.abs(sizes[i]! - sizes[i - 1]!) : 0;
    return breakCost(notation, last, last + 1 - pickup) + UNEVEN * uneven;
  });
  return -costs.reduce((sum, cost) => sum + cost, 0) / Math.max(1, costs.length - 1);
}

interface Best {
  readonly cost: number;
  readonly line: Line | undefined;
}

/** Breaks a tune into systems. */
export function breakSystems(measured: Measured, linesFrom: Lines, choices: BreakChoices): Line[] {
  const { measures } = measured.notation.tune;
  const { width, options } = choices;
  const pickup = pickupOf(measured.notation);
  const most = options.measuresPerSystem ?? Infinity;
  /** The cheapest way to set the measures before each index. */
  const best: Best[] = [{ cost: 0, line: undefined }];
  for (let first = 0; first < measures.length; first++) {
    const before = best[first]!;
    const sizeBefore = before.line ? sizeOf(before.line, pickup) : 0;
    for (let last = first; last < measures.length; last++) {
      if (last > first && isForced(measures[last], options)) break;
      const line = linesFrom(first, last);
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
  const full = stretchFor(last.strip.gaps, last.strip.rods, width - last.strip.solid);
  const loose = Math.max(1, mean);
  const filled = lengthAt(last.strip, loose) / width;
  return [...others, { ...last, stretch: filled > FULL ? full : Math.min(full, loose) }];
}

/** The last system may be loose, but a lone measure or two at its start look forgotten. */
function lastCost(line: Line, width: number, density: number): number {
  const loose = Math.max(1, density);
  const full = lengthAt(line.strip, loose) / width;
  const fit = stretchCost(line.stretch / density);
  if (full * Math.min(1, density) > 1) return fit;
  if (full >= FULL) return fit / 2;
  return 1.5 * (FULL - full) + (line.last === line.first ? 2 : 0);
}
