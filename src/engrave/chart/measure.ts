/**
 * One measure of a chord chart: chord symbols over slashes, one slash a beat, rests where no chord sounds; and
 * the bar lines between measures. In millimetres; y = 0 is the middle of the slashes.
 */
import type { ChartMeasure } from '../../lesson/chords/chart.ts';
import type { ChordSymbol } from '../../score/model/chord-symbol.ts';
import type { NoteValue } from '../../score/model/duration.ts';
import { union } from '../drawing/box.ts';
import { bounds, type Mark, move, place } from '../drawing/mark.ts';
import { disc } from '../drawing/round.ts';
import { glyph } from '../font/glyph.ts';
import { type StrokeKind, strokeKinds } from '../measure/bars.ts';
import { restMarks } from '../measure/rest-marks.ts';
import { anchoredText } from '../measure/rich-text.ts';
import { timeBlock } from '../measure/signatures.ts';
import { STYLE } from '../style.ts';
import { nameMarks } from './frame.ts';

export const CHART = {
  /** Em of chord symbols, and the height of their baseline over the slashes. */
  name: 5.6,
  baseline: -4.6,
  /** Bar lines from here to here. */
  top: -9.4,
  bottom: 4,
  /** Room before the first slash and after the last. */
  before: 3.4,
  after: 1.2,
  /** What the dots of a repeat take of a measure at its start, or at its end. */
  repeat: 2.6,
  /** Height of a staff space that bar lines and metres are drawn for. */
  space: 1.7,
} as const;

const SLASH = { height: 4.6, slant: 2.7, thickness: 1.15 } as const;
/** At least so much between two chord symbols of full size. */
const APART = 1.6;

/** Where in a measure from 0 to `width` a tick lies. */
const xAt = (measure: ChartMeasure, at: number, width: number): number => {
  const { before, after } = rooms(measure);
  return before + ((width - before - after) * at) / measure.length;
};

/** A measure's room before its first beat, and after its last. */
const rooms = ({ left, right }: ChartMeasure): { readonly before: number; readonly after: number } => ({
  before: CHART.before + (left.repeat ? CHART.repeat : 0),
  after: CHART.after + (right.repeat ? CHART.repeat : 0),
});

/** Slashes and chord symbols. `size` is the em of the symbols. */
export function measureMarks(measure: ChartMeasure, width: number, size: number): Mark[] {
  const slashes = measure.beats.filter(beat => beat.chord).map(beat => slash(xAt(measure, beat.at, width)));
  const names = moments(measure).flatMap(({ at, symbols }) =>
    move(sideBySide(symbols, size), xAt(measure, at, width), CHART.baseline),
  );
  const rests = measure.rests.flatMap(({ at, value }) => move(restMark(value), xAt(measure, at, width), 0));
  return [...slashes, ...rests, ...names];
}

/** A rest as high over the line of slashes as under it. The block of a half or longer lies on or hangs from a line. */
function restMark(value: NoteValue): Mark[] {
  const { marks, width } = restMarks({ value, wholeMeasure: false });
  const line = { kind: 'line', role: 'ledger', y1: 2, y2: 2, thickness: STYLE.ledgerLine } as const;
  const onLine =
    value.base <= 2 ? [{ ...line, x1: -STYLE.ledgerBeyond, x2: width + STYLE.ledgerBeyond }] : [];
  return [...marks, ...onLine].map(mark => place(mark, CHART.space, 0, -2 * CHART.space));
}

function slash(x: number): Mark {
  const half = SLASH.height / 2;
  const { slant, thickness } = SLASH;
  return {
    kind: 'polygon',
    role: 'head',
    points: [
      [x, half],
      [x + thickness, half],
      [x + slant + thickness, -half],
      [x + slant, -half],
    ],
  };
}

/** The width from which on the symbols of a measure do not touch, their em being `size`. */
export function neededWidth(measure: ChartMeasure, size: number): number {
  const { before, after } = rooms(measure);
  return Math.max(
    0,
    ...spaces(measure, size).map(({ part, needed, beyond }) => before + after + (needed - beyond) / part),
  );
}

/** The largest em, up to `most`, at which the symbols of a measure do not touch; in a measure of that width. */
export function fittingSize(measure: ChartMeasure, width: number, most: number): number {
  const { before, after } = rooms(measure);
  const inner = width - before - after;
  const sizes = spaces(measure, most).map(({ part, needed, beyond }) => {
    const drawn = needed - APART;
    return (most * (part * inner + beyond - APART)) / drawn;
  });
  return Math.min(most, ...sizes);
}

/** From each moment with symbols to the next one, or to the bar line. */
interface Space {
  /** Of the measure's room for beats. */
  readonly part: number;
  /** For the symbols, mm. */
  readonly needed: number;
  /** Beyond the room for beats, mm. */
  readonly beyond: number;
}

const spaces = (measure: ChartMeasure, size: number): readonly Space[] => {
  const all = moments(measure);
  return all.map(({ at, symbols }, index) => {
    const next = all[index + 1]?.at;
    return {
      part: ((next ?? measure.length) - at) / measure.length,
      needed: widthOf(sideBySide(symbols, size)) + APART,
      beyond: next === undefined ? CHART.after : 0,
    };
  });
};

/** Symbols by the time at which they stand: some files give several at one. One at the very end never sounds. */
const moments = ({
  chords,
  length,
}: ChartMeasure): readonly { readonly at: number; readonly symbols: readonly ChordSymbol[] }[] =>
  [...new Set(chords.map(({ at }) => at).filter(at => at < length))].map(at => ({
    at,
    symbols: chords.filter(each => each.at === at).map(({ symbol }) => symbol),
  }));

const sideBySide = (symbols: readonly ChordSymbol[], size: number): Mark[] => {
  let x = 0;
  return symbols.flatMap(symbol => {
    const marks = move(nameMarks(symbol, size), x, 0);
    x += widthOf(marks) + APART * (size / CHART.name);
    return marks;
  });
};

const widthOf = (marks: readonly Mark[]): number => {
  const box = union(marks.map(bounds));
  return box ? box.right - box.left : 0;
};

const GAP = 0.75;
const WIDTHS: Readonly<Record<StrokeKind, number>> = {
  thin: 0.3,
  thick: 0.9,
  dots: 0.9,
  dashed: 0.3,
  dotted: 0.3,
};
const DASHES: Partial<Record<StrokeKind, readonly [number, number]>> = {
  dashed: [1.2, 0.9],
  dotted: [0.3, 0.7],
};

/** The bar line between two measures at x; either may be missing. A repeat's thick line lies on x. */
export function barMarks(left: ChartMeasure | undefined, right: ChartMeasure | undefined, x: number): Mark[] {
  const kinds = left || right?.left.repeat ? strokeKinds(left?.right, right?.left) : (['thin'] as const);
  const total = kinds.reduce((sum, kind) => sum + WIDTHS[kind], GAP * (kinds.length - 1));
  // At the end of a line the strokes end there, at its start they start there.
  let at = right === undefined ? x - total : left === undefined ? x : x - total / 2;
  return kinds.flatMap(kind => {
    const middle = at + WIDTHS[kind] / 2;
    at += WIDTHS[kind] + GAP;
    return strokeMarks(kind, middle);
  });
}

function strokeMarks(kind: StrokeKind, x: number): Mark[] {
  if (kind === 'dots') return [-1.1, 1.1].map(y => disc('bar', x, y + MIDDLE, 0.45));
  const dash = DASHES[kind];
  const line = { kind: 'line', role: 'bar', x1: x, y1: CHART.top, x2: x, y2: CHART.bottom } as const;
  return [{ ...line, thickness: WIDTHS[kind], ...(dash ? { dash } : {}) }];
}

const MIDDLE = (CHART.top + CHART.bottom) / 2;

/** No staff line divides the two figures of a time signature here: they stand a little apart. */
const FIGURES_APART = 0.12;

/** A time signature, its left edge at x = 0, and its width. */
export function metreMarks({ time }: ChartMeasure): { readonly marks: Mark[]; readonly width: number } {
  const { marks, width } = timeBlock(time);
  const { space } = CHART;
  return {
    marks: marks.map(mark => {
      const { top, bottom } = bounds(mark);
      const apart = Math.sign(Math.round(top + bottom - 4)) * FIGURES_APART;
      return place(mark, space, 0, MIDDLE - (2 - apart) * space);
    }),
    width: width * space,
  };
}

const SMALL = 3.3;

const signGlyph = (name: 'segno' | 'coda', y: number): Mark => {
  const { left, bottom } = glyph(name);
  const { space: size } = CHART;
  return { kind: 'glyph', role: 'sign', name, x: -left * size, y: y - bottom * size, size };
};

/** Between signs, and from the number of a measure to them. */
export const SIGN_GAP = 1.5;

/** What stands over the end of a measure: how often a repeat is played where that is not twice, and jumps. */
const endWords = ({ right, marks }: ChartMeasure): readonly string[] => [
  ...(right.repeat && right.times > 2 ? [`${right.times}×`] : []),
  ...marks.flatMap(mark => (mark.kind === 'jump' ? [mark.text] : [])),
];

/** Whether anything stands over a measure. */
export const hasSigns = (measure: ChartMeasure): boolean =>
  measure.marks.length > 0 || endWords(measure).length > 0;

/** Rehearsal marks and signs over a measure, side by side from `left` on; jumps end at its right edge. */
export function signMarks(measure: ChartMeasure, left: number, width: number): Mark[] {
  const y = CHART.top - 2;
  let x = left;
  const begin = measure.marks.flatMap((mark): Mark[] => {
    if (mark.kind === 'jump') return [];
    const drawn: Mark[] =
      mark.kind === 'sign'
        ? [signGlyph(mark.sign, y)]
        : anchoredText(mark.text, { role: 'words', face: 'serifBold', size: 4.4 }, 0, y, 'start');
    const moved = move(drawn, x, 0);
    x = Math.max(...moved.map(each => bounds(each).right)) + SIGN_GAP;
    return moved;
  });
  const end = endWords(measure).join('  ');
  const style = { role: 'sign', face: 'serifBold', size: SMALL } as const;
  return [...begin, ...(end === '' ? [] : anchoredText(end, style, width - 2.5, y, 'end'))];
}
