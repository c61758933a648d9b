/** Signs, words and tempo above the staff, one above the other where they would meet. */
import type { Direction } from '../../score/model/direction.ts';
import { type Box, union } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { type GlyphName, glyph } from '../font/glyph.ts';
import { richText } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { measureSpan, type PlacedSystem, xAt } from './placed.ts';
import type { Sketch } from './sketch.ts';
import { tempoMarks } from './tempo.ts';

/** Marks on one line that are no farther apart would read as one. */
const APART = 1;
/** A baseline so near to that of the chord symbols looks like a mistake. */
const NEARLY = 1.2;
/** On that baseline, the least distance from what is below. */
const LEAST_GAP = 0.3;

/** A direction's marks (baseline y = 0) at the x where they stand. */
export interface Standing {
  readonly measure: number;
  readonly kind: Direction['kind'];
  readonly marks: readonly Mark[];
  readonly box: Box;
  /** From what is below. */
  readonly gap: number;
}

/** Its baseline, clear above everything there; and the lowest one that touches nothing. */
function baselineOf({ box, gap }: Standing, sketch: Sketch): { readonly y: number; readonly lowest: number } {
  const top = sketch.above(box.left - APART, box.right + APART, 0);
  const foot = Math.max(box.bottom, 0.15);
  return { y: Math.min(-1.2, top - gap) - foot, lowest: top - LEAST_GAP - foot };
}

/** Draws it; on the baseline of the chord symbols where that is about as high. */
function stack(standing: Standing, sketch: Sketch, chords: number | undefined): void {
  const { y, lowest } = baselineOf(standing, sketch);
  const fits = chords !== undefined && Math.abs(chords - y) < NEARLY && chords <= lowest;
  sketch.add(standing.measure, move(standing.marks, 0, fits ? chords : y));
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

function standingAt(
  system: PlacedSystem,
  measure: number,
  kind: Direction['kind'],
  { marks, x, gap }: { readonly marks: readonly Mark[]; readonly x: number; readonly gap: number },
): Standing[] {
  const placed = move(marks, withinStaff(system, marks, x), 0);
  const box = union(placed.map(bounds));
  return box ? [{ measure, kind, marks: placed, box, gap }] : [];
}

/** How often a passage is played, over its repeat sign, where it is not twice. */
function timesOf(system: PlacedSystem, measure: number): Standing[] {
  const { repeat, times, ending } = system.notation.tune.measures[measure]!.right;
  if (!repeat || times <= 2 || ending) return [];
  const marks = words(`${times}×`, 'serifBold');
  const x = rightAligned(marks, measureSpan(system, measure).right + 1);
  return standingAt(system, measure, 'jump', { marks, x, gap: 0.6 });
}

/** Words, signs and tempo of a system, in the order in which they are stacked. */
export function directionsOf(system: PlacedSystem): readonly Standing[] {
  const { line, notation } = system;
  const indices = Array.from({ length: line.last - line.first + 1 }, (_, i) => line.first + i);
  const times = indices.flatMap(index => timesOf(system, index));
  const directions = indices.flatMap(index =>
    notation.tune.measures[index]!.directions.flatMap(direction => {
      const drawn = directionMarks(system, index, direction);
      return drawn ? standingAt(system, index, direction.kind, drawn) : [];
    }),
  );
  return [...times, ...ORDER.flatMap(kind => directions.filter(each => each.kind === kind))];
}

/** Draws them; `chords` is the baseline of the chord symbols. */
export function drawDirections(
  directions: readonly Standing[],
  sketch: Sketch,
  chords: number | undefined,
): void {
  for (const each of directions) stack(each, sketch, chords);
}

/**
 * A baseline for chord symbols that lie between `left` and `right`, at `y` or higher: that of a direction beside them
 * all that would stand a little higher.
 */
export function sharedBaseline(
  directions: readonly Standing[],
  sketch: Sketch,
  y: number,
  symbols: readonly { readonly left: number; readonly right: number }[],
): number {
  const beside = directions.filter(({ box }) =>
    symbols.every(({ left, right }) => right < box.left - APART || left > box.right + APART),
  );
  const higher = beside.map(each => baselineOf(each, sketch).y).filter(each => each < y && each > y - NEARLY);
  return Math.min(y, ...higher);
}
