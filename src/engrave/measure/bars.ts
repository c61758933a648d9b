/** Bar lines, and what stands with them between two measures: repeats, changes of key and metre. */

import type { Key } from '../../score/model/attributes.ts';
import { type Barline, closing } from '../../score/model/barline.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import type { Notation } from '../content/notation.ts';
import { type Mark, move } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import { type Block, clefBlock, keyBlock, NOTHING, sequence, timeBlock } from './signatures.ts';

export type StrokeKind = 'thin' | 'thick' | 'dots' | 'dashed' | 'dotted';

interface Stroke {
  readonly kind: StrokeKind;
  readonly x: number;
}

/** A bar line with its surroundings, from x = 0. */
export interface Bar {
  readonly strokes: readonly Stroke[];
  /** Where the strokes end. */
  readonly strokesWidth: number;
  /** Signatures before the strokes (at a system's head) or after them, on the staff alone. */
  readonly marks: readonly Mark[];
  readonly width: number;
  /** Room before the first note. */
  readonly after: number;
}

const WIDTHS: Readonly<Record<StrokeKind, number>> = {
  thin: STYLE.thinBar,
  thick: STYLE.thickBar,
  dots: 0.38,
  dashed: STYLE.thinBar,
  dotted: STYLE.thinBar,
};

const STYLES: Readonly<Record<Barline['style'], readonly StrokeKind[]>> = {
  regular: ['thin'],
  double: ['thin', 'thin'],
  final: ['thin', 'thick'],
  'reverse-final': ['thick', 'thin'],
  heavy: ['thick'],
  dashed: ['dashed'],
  dotted: ['dotted'],
  none: [],
};

/** The strokes between two measures; either side may be missing. */
export function strokeKinds(left: Barline | undefined, right: Barline | undefined): readonly StrokeKind[] {
  const ends = left?.repeat ?? false;
  const starts = right?.repeat ?? false;
  if (ends && starts) return ['dots', 'thin', 'thick', 'thin', 'dots'];
  if (ends) return ['dots', 'thin', 'thick'];
  if (starts) return ['thick', 'thin', 'dots'];
  if (!left) return [];
  // Of the two measures at a bar line one mostly says nothing of it.
  const isSaid = left.style !== 'regular' && left.style !== 'none';
  return STYLES[!isSaid && right && right.style !== 'regular' ? right.style : left.style];
}

/** Strokes from x on; dots stand a little closer to their line than lines to each other. */
function setStrokes(kinds: readonly StrokeKind[], from: number): { strokes: Stroke[]; end: number } {
  const strokes: Stroke[] = [];
  let x = from;
  let before: StrokeKind | undefined;
  for (const kind of kinds) {
    if (before) x += STYLE.barGap;
    strokes.push({ kind, x });
    x += WIDTHS[kind];
    before = kind;
  }
  return { strokes, end: x };
}

/** Strokes with signatures after them. */
function bar(kinds: readonly StrokeKind[], after: Block, room: number): Bar {
  const { strokes, end } = setStrokes(kinds, 0);
  const gap = end + 0.9;
  return {
    strokes,
    strokesWidth: end,
    marks: move(after.marks, gap, 0),
    width: after.width > 0 ? gap + after.width : end,
    after: room,
  };
}

interface Change {
  readonly key: Block;
  readonly time: Block;
  readonly changesKey: boolean;
}

/** What changes at the start of a measure. */
function changeAt({ reading }: Notation, measure: TuneMeasure, before: Key | undefined): Change {
  const at = measure.changes.filter(change => change.at === 0);
  const key = at.findLast(change => change.key)?.key;
  const time = at.findLast(change => change.time)?.time;
  const changesKey = key !== undefined && before !== undefined && key.fifths !== before.fifths;
  return {
    key: changesKey ? keyBlock(measure.key, reading, before) : NOTHING,
    time: time ? timeBlock(measure.time) : NOTHING,
    changesKey,
  };
}

/** The key in force when a measure ends. */
const keyAtEnd = (measure: TuneMeasure): Key =>
  measure.changes.findLast(change => change.key)?.key ?? measure.key;

/** The strokes between two measures: two where the key changes and nothing else is asked for. */
function strokesBetween(left: Barline, right: Barline | undefined, changesKey: boolean) {
  const kinds = strokeKinds(left, right);
  return changesKey && kinds === STYLES.regular ? STYLES.double : kinds;
}

/** The bar between two measures within a system. */
export function innerBar(notation: Notation, left: TuneMeasure, right: TuneMeasure): Bar {
  const { key, time, changesKey } = changeAt(notation, right, keyAtEnd(left));
  const kinds = strokesBetween(left.right, right.left, changesKey);
  const after = sequence([
    { block: key, gap: 0 },
    { block: time, gap: 0.8 },
  ]);
  if (right.left.repeat && after.width > 0) {
    // The signatures come between the double bar and the repeat sign.
    const ends = left.right.repeat || left.right.style !== 'regular';
    const first = bar(ends ? strokeKinds(left.right, undefined) : STYLES.double, after, 0);
    const { strokes, end } = setStrokes(strokeKinds(undefined, right.left), first.width + 0.8);
    return { ...first, strokes: [...first.strokes, ...strokes], strokesWidth: end, width: end, after: 1 };
  }
  return bar(kinds, after, after.width > 0 ? 1.4 : right.left.repeat ? 1 : 1.15);
}

/** The bar that ends a system, with what the next one will bring. */
export function endBar(notation: Notation, left: TuneMeasure, right: TuneMeasure | undefined): Bar {
  const { key, time, changesKey } = right
    ? changeAt(notation, right, keyAtEnd(left))
    : { key: NOTHING, time: NOTHING, changesKey: false };
  // A repeat that starts there is drawn in the next system; another style belongs to this bar line.
  const after = right && !right.left.repeat ? right.left : undefined;
  const kinds = strokesBetween(right ? left.right : closing(left.right), after, changesKey);
  const announced = sequence([
    { block: key, gap: 0 },
    { block: time, gap: 0.8 },
  ]);
  const end = bar(kinds, announced, 0);
  return announced.width > 0 ? { ...end, width: end.width + 0.6 } : end;
}

/** At the first system's head there is room for the names of the strings below it. */
const NAMES_ROOM = 4.8;

/** The head of a system: clef, key, the time signature where it is new, a repeat sign. */
export function startBar(notation: Notation, measure: TuneMeasure, first: boolean): Bar {
  const timed = first || measure.changes.some(change => change.at === 0 && change.time);
  const head = sequence([
    { block: clefBlock(notation.reading), gap: 0.6 },
    { block: keyBlock(measure.key, notation.reading), gap: 0.8 },
    { block: timed ? timeBlock(measure.time) : NOTHING, gap: 0.8 },
  ]);
  const { strokes, end } = setStrokes(strokeKinds(undefined, measure.left), head.width + 0.8);
  const repeated = strokes.length > 0;
  return {
    strokes,
    strokesWidth: repeated ? end : 0,
    marks: head.marks,
    width: repeated ? end : Math.max(head.width, first ? NAMES_ROOM : 0),
    after: repeated ? 1 : 1.5,
  };
}

/** Strokes drawn over one staff: from its top to its bottom line, dots in its middle. */
export function strokeMarks(strokes: readonly Stroke[], x: number, top: number, bottom: number): Mark[] {
  return strokes.flatMap(({ kind, x: offset }): Mark[] => {
    const thickness = WIDTHS[kind];
    if (kind === 'dots') {
      const middle = (top + bottom) / 2;
      const reach = bottom - top > 4.2 ? 0.75 : 0.5;
      return [-reach, reach].map(dy => ({
        kind: 'glyph',
        role: 'bar',
        name: 'dot',
        x: x + offset,
        y: middle + dy,
        size: 1,
      }));
    }
    const half = STYLE.staffLine / 2;
    const middle = x + offset + thickness / 2;
    const dash =
      kind === 'dashed'
        ? { dash: [0.6, 0.45] as const }
        : kind === 'dotted'
          ? { dash: [0.2, 0.35] as const }
          : {};
    return [
      {
        kind: 'line',
        role: 'bar',
        x1: middle,
        y1: top - half,
        x2: middle,
        y2: bottom + half,
        thickness,
        ...dash,
      },
    ];
  });
}
