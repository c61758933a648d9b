/**
 * Third stage: systems. They break at bar lines only; there are as few as the width allows, and their
 * widths come out as even as they can. A measure that is wider than the width has a system to itself.
 */
import type { Barline } from '../../score/model/barline.ts';
import type { BarColumn } from './signs.ts';
import type { PlacedSignature, SpacedMeasure } from './spacing.ts';

/** A bar line and the column that it starts in. */
interface PlacedBar {
  readonly column: number;
  readonly columns: readonly BarColumn[];
}

/** A measure in its system. */
export interface PlacedMeasure {
  readonly measure: SpacedMeasure;
  /** The column that the measure's own columns count from. */
  readonly start: number;
  /** The column of the bar line before and after it. */
  readonly from: number;
  readonly to: number;
  readonly signature: { readonly column: number; readonly placed: PlacedSignature } | undefined;
}

/** Measures side by side. */
export interface System {
  readonly measures: readonly PlacedMeasure[];
  readonly bars: readonly PlacedBar[];
  /** Where the staff starts, after the names of the strings. */
  readonly left: number;
  readonly width: number;
}

/** Breaks the tune into systems of `width` columns, each `gutter` of them before its staff. */
export const systemsOf = (
  measures: readonly SpacedMeasure[],
  gutter: number,
  width: number,
): readonly System[] => {
  const breaks = bestBreaks(measures.length, (from, to) => {
    const system = placeSystem(measures, from, to, gutter);
    const slack = width - system.width;
    return slack >= 0 || to === from + 1 ? { fits: true, cost: Math.max(0, slack) ** 2 } : { fits: false };
  });
  return breaks.map((from, index) =>
    placeSystem(measures, from, breaks[index + 1] ?? measures.length, gutter),
  );
};

type Fit = { readonly fits: true; readonly cost: number } | { readonly fits: false };

/** First measures of the systems: as few as can be, then with the least sum of squares of slack. */
const bestBreaks = (count: number, judge: (from: number, to: number) => Fit): readonly number[] => {
  const best: { systems: number; cost: number; next: number }[] = [];
  best[count] = { systems: 0, cost: 0, next: count };
  for (let from = count - 1; from >= 0; from--) {
    for (let to = from + 1; to <= count; to++) {
      const tried = judge(from, to);
      if (!tried.fits) break;
      const rest = best[to]!;
      const candidate = { systems: rest.systems + 1, cost: rest.cost + tried.cost, next: to };
      const known = best[from];
      if (!known || isBetter(candidate, known)) best[from] = candidate;
    }
  }
  const breaks: number[] = [];
  for (let from = 0; from < count; from = best[from]!.next) breaks.push(from);
  return breaks;
};

const isBetter = (a: { systems: number; cost: number }, b: { systems: number; cost: number }): boolean =>
  a.systems !== b.systems ? a.systems < b.systems : a.cost < b.cost;

const placeSystem = (measures: readonly SpacedMeasure[], from: number, to: number, left: number): System => {
  const bars: PlacedBar[] = [{ column: left, columns: ['thin'] }];
  const placed: PlacedMeasure[] = [];
  let column = left + 1;
  for (let index = from; index < to; index++) {
    const measure = measures[index]!;
    const before = bars.at(-1)!.column + bars.at(-1)!.columns.length - 1;
    const sign = index === from ? measure.opening : measure.change;
    const signature = sign && { column: column + 1, placed: sign };
    if (signature) column = signature.column + sign.width + 1;
    if (index === from && measure.left.repeat) {
      const columns = joint(undefined, measure.left);
      bars.push({ column, columns });
      column += columns.length;
    }
    const start = column;
    column += measure.width;
    placed.push({ measure, start, from: before, to: column, signature });
    const columns = joint(measure.right, index + 1 < to ? measures[index + 1]!.left : undefined);
    bars.push({ column, columns });
    column += columns.length;
  }
  return { measures: placed, bars, left, width: column };
};

const STYLES: Readonly<Record<Barline['style'], readonly BarColumn[]>> = {
  regular: ['thin'],
  double: ['thin', 'thin'],
  final: ['thin', 'heavy-end'],
  'reverse-final': ['heavy-start', 'thin'],
  heavy: ['heavy-end'],
  dashed: ['dashed'],
  dotted: ['dashed'],
  none: ['blank'],
};

/** The bar line between two measures of a system, or at its start or end. */
const joint = (right: Barline | undefined, left: Barline | undefined): readonly BarColumn[] => {
  if (right?.repeat)
    return left?.repeat ? ['dots', 'thin', 'heavy-end', 'thin', 'dots'] : ['dots', 'thin', 'heavy-end'];
  if (left?.repeat) return ['heavy-start', 'thin', 'dots'];
  const style = right && right.style !== 'regular' ? right.style : (left?.style ?? 'regular');
  return STYLES[style];
};
