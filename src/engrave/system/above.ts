/** What stands above the staff, row by row: chord symbols, endings, then signs, words and tempo. */
import type { Direction } from '../../score/model/direction.ts';
import type { TuneMeasure } from '../../score/tune.ts';
import { endingLabel } from '../content/ending-label.ts';
import { type Box, union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { type GlyphName, glyph } from '../font/glyph.ts';
import { richText } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { measureSpan, type PlacedSystem, xAt } from './placed.ts';
import type { Sketch } from './sketch.ts';
import { tempoMarks } from './tempo.ts';

const CHORD_BASELINE = -1.5;

/** A figure so near to a symbol on one height with it would read as part of it. */
const BESIDE_FIGURE = { left: 2, right: 3.5 };

/** Fingers, tuplet figures and brackets above the staff. */
const figuresAbove = ({ marks }: Sketch): readonly Box[] =>
  [...marks.values()].flatMap(list =>
    list
      .filter(mark => mark.role === 'tuplet' || mark.role === 'finger')
      .map(bounds)
      .filter(({ bottom }) => bottom < 0),
  );

/** The highest of them beside a chord symbol. */
function highestBeside(figures: readonly Box[], left: number, right: number): number {
  const beside = figures.filter(
    box => box.right > left - BESIDE_FIGURE.left && box.left < right + BESIDE_FIGURE.right,
  );
  return Math.min(0, ...beside.map(({ top }) => top));
}

/** Chord symbols, all on one baseline. */
export function drawChords(system: PlacedSystem, sketch: Sketch): void {
  const row = system.columns.filter(({ column }) => column.chord.length > 0);
  const figures = row.length > 0 ? figuresAbove(sketch) : [];
  let y = CHORD_BASELINE;
  for (const { column, x } of row) {
    const box = union(column.chord.map(bounds))!;
    const [left, right] = [x + box.left, x + box.right];
    const under = Math.min(sketch.above(left - 0.3, right + 0.3, 0), highestBeside(figures, left, right));
    y = Math.min(y, under - 0.55 - Math.max(box.bottom, 0.1));
  }
  for (const { column, x } of row) sketch.add(column.measure, move(column.chord, x, y));
}

interface Bracket {
  readonly measure: number;
  readonly left: number;
  readonly right: number;
  readonly text: string;
  readonly starts: boolean;
  readonly closes: boolean;
}

/** The brackets of endings, in pieces where they run over from another system. */
function endingBrackets(system: PlacedSystem): Bracket[] {
  const { measures } = system.notation.tune;
  const found: Bracket[] = [];
  let open: { from: number; text: string; starts: boolean } | undefined = endingBefore(
    measures,
    system.line.first,
  );
  for (let index = system.line.first; index <= system.line.last; index++) {
    const { left, right } = measures[index]!;
    if (left.ending) open = { from: index, text: endingLabel(left.ending), starts: true };
    if (!open) continue;
    const stop = right.ending ?? (measures[index + 1]?.left.ending ? { close: 'open' as const } : undefined);
    if (!stop && index < system.line.last) continue;
    const span = measureSpan(system, index);
    found.push({
      measure: open.from,
      left: measureSpan(system, Math.max(open.from, system.line.first)).left + (open.starts ? 0.1 : 0),
      right: stop || index < system.line.last ? span.right - 0.1 : system.width,
      text: open.text,
      starts: open.starts,
      closes: stop?.close === 'closed',
    });
    open = undefined;
  }
  return found;
}

/** An ending that has begun before this system and goes on in it. */
function endingBefore(measures: readonly TuneMeasure[], first: number) {
  for (let index = first - 1; index >= 0; index--) {
    if (measures[index]!.right.ending) return undefined;
    const ending = measures[index]!.left.ending;
    if (ending) return { from: first, text: endingLabel(ending), starts: false };
  }
  return undefined;
}

export function drawEndings(system: PlacedSystem, sketch: Sketch): void {
  const brackets = endingBrackets(system);
  if (brackets.length === 0) return;
  const depth = 1.9;
  const y = Math.min(-2.6, ...brackets.map(({ left, right }) => sketch.above(left, right, 0) - 0.4 - depth));
  const line = (x1: number, y1: number, x2: number, y2: number): Mark => ({
    kind: 'line',
    role: 'ending',
    x1,
    y1,
    x2,
    y2,
    thickness: STYLE.bracket,
  });
  const half = STYLE.bracket / 2;
  for (const { measure, left, right, text, starts, closes } of brackets) {
    const words = richText(
      text,
      { role: 'ending', face: 'serifBold', size: STYLE.smallSize * 1.15 },
      left + 0.5,
      y + 1.55,
    );
    sketch.add(measure, [
      line(left - half, y, right + half, y),
      ...(starts ? [line(left, y, left, y + depth), ...words.marks] : []),
      ...(closes ? [line(right, y, right, y + depth)] : []),
    ]);
  }
}

/** Sets marks (baseline y = 0) with their left edge at x, clear above everything there. */
function stack(
  sketch: Sketch,
  measure: number,
  marks: readonly Mark[],
  x: number,
  gap: number,
  highest = -1.2,
): void {
  const box = union(marks.map(bounds));
  if (!box) return;
  const y =
    Math.min(highest, sketch.above(x + box.left - 0.4, x + box.right + 0.4, 0) - gap) -
    Math.max(box.bottom, 0.15);
  sketch.add(measure, move(marks, x, y));
}

const rightAligned = (marks: readonly Mark[], right: number): number =>
  right - (union(marks.map(bounds))?.right ?? 0);

const signGlyph = (name: GlyphName): Mark[] => [
  { kind: 'glyph', role: 'sign', name, x: 0, y: -glyph(name).bottom, size: 1 },
];

function rehearsal(text: string): Mark[] {
  const { marks, width } = richText(text, { role: 'words', face: 'sansBold', size: 2.2 }, 0.45, 0);
  const box: Box = { left: 0, right: width + 0.9, top: -1.9, bottom: 0.45 };
  const edge = (x1: number, y1: number, x2: number, y2: number): Mark => ({
    kind: 'line',
    role: 'words',
    x1,
    y1,
    x2,
    y2,
    thickness: 0.16,
  });
  return [
    ...marks,
    edge(box.left - 0.08, box.top, box.right + 0.08, box.top),
    edge(box.left - 0.08, box.bottom, box.right + 0.08, box.bottom),
    edge(box.left, box.top, box.left, box.bottom),
    edge(box.right, box.top, box.right, box.bottom),
  ];
}

const words = (text: string, face: 'serifItalic' | 'serifBold' = 'serifItalic'): Mark[] =>
  richText(text, { role: 'words', face, size: STYLE.wordsSize }).marks;

/** What belongs to a measure starts at its bar line, or over the clef; words over their note, but for the tune's first. */
function startX(system: PlacedSystem, measure: number, { at, kind }: Direction): number {
  if (at > 0 || (kind === 'words' && measure > 0)) return Math.max(0, xAt(system, measure, at));
  return measure === system.line.first ? 0.6 : Math.max(0, measureSpan(system, measure).left - 0.2);
}

/** A direction's marks, where they start, and their distance from what is below; undefined where undrawn. */
function directionMarks(system: PlacedSystem, measure: number, direction: Direction) {
  const { right } = measureSpan(system, measure);
  const x = startX(system, measure, direction);
  switch (direction.kind) {
    case 'sign':
      return { marks: signGlyph(direction.sign), x, gap: 0.6 };
    case 'jump': {
      const marks = words(direction.text, 'serifBold');
      return { marks, x: Math.max(0, rightAligned(marks, right)), gap: 0.6 };
    }
    case 'words':
      return direction.placement === 'above' ? { marks: words(direction.text), x, gap: 0.6 } : undefined;
    case 'rehearsal':
      return { marks: rehearsal(direction.text), x, gap: 0.9 };
    case 'tempo':
      return direction.printed ? { marks: tempoMarks(direction), x, gap: 0.9 } : undefined;
    default:
      return undefined;
  }
}

/** Nearest to the staff first. */
const ORDER: readonly Direction['kind'][] = ['words', 'jump', 'sign', 'rehearsal', 'tempo'];

/** Moves what would stick out at the right end of the system back to it. */
const withinStaff = ({ width }: PlacedSystem, marks: readonly Mark[], x: number): number =>
  Math.max(0, Math.min(x, rightAligned(marks, width)));

/** How often a passage is played, over its repeat sign, where it is not twice. */
function drawTimes(system: PlacedSystem, measure: number, sketch: Sketch): void {
  const { repeat, times, ending } = system.notation.tune.measures[measure]!.right;
  if (!repeat || times <= 2 || ending) return;
  const marks = words(`${times}×`, 'serifBold');
  stack(sketch, measure, marks, rightAligned(marks, measureSpan(system, measure).right + 1), 0.6);
}

export function drawDirections(system: PlacedSystem, sketch: Sketch): void {
  const { measures } = system.notation.tune;
  for (let index = system.line.first; index <= system.line.last; index++) drawTimes(system, index, sketch);
  for (const kind of ORDER) {
    for (let index = system.line.first; index <= system.line.last; index++)
      for (const direction of measures[index]!.directions) {
        const drawn = direction.kind === kind ? directionMarks(system, index, direction) : undefined;
        if (drawn) stack(sketch, index, drawn.marks, withinStaff(system, drawn.marks, drawn.x), drawn.gap);
      }
  }
}
