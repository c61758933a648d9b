/** Articulations on the side of the heads, fermatas and breath marks above. */
import type { Articulation } from '../../score/model/event.ts';
import type { Mark } from '../drawing/mark.ts';
import { type GlyphName, glyph } from '../font/glyph.ts';
import { headCentre, type PlacedNote, type PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

/** Drawn at the heads, nearest first. Those with no glyph are short lines. */
const AT_HEAD: readonly Articulation[] = ['staccato', 'tenuto', 'staccatissimo', 'accent'];
/** Above and below. */
const GLYPHS: Readonly<Partial<Record<Articulation, readonly [GlyphName, GlyphName]>>> = {
  staccato: ['dot', 'dot'],
  staccatissimo: ['staccatissimoAbove', 'staccatissimo'],
  accent: ['accent', 'accent'],
};
const glyphAt = (kind: Articulation, side: -1 | 1): GlyphName | undefined => GLYPHS[kind]?.[side < 0 ? 0 : 1];

function centred(name: GlyphName, x: number, y: number, of: number): Mark {
  const { left, right } = glyph(name);
  return { kind: 'glyph', role: 'articulation', name, x: x - (left + right) / 2, y, size: 1, of };
}

function shapeOf(kind: Articulation, side: -1 | 1, x: number, y: number, of: number): Mark {
  const name = glyphAt(kind, side);
  if (name) return centred(name, x, y, of);
  return { kind: 'line', role: 'articulation', x1: x - 0.6, y1: y, x2: x + 0.6, y2: y, thickness: 0.18, of };
}

/** The nearest space's middle from y outwards: small marks never lie on a staff line. */
function toSpace(y: number, side: -1 | 1): number {
  if (y < -0.4 || y > 4.4) return y;
  const space = Math.floor(y) + 0.5;
  return side * (space - y) >= -0.01 ? space : space + side;
}

/** Where a mark that keeps outside the staff stands: beyond the head, and whatever else is there. */
function outsideStaff(kind: Articulation, x: number, edge: number, side: -1 | 1, sketch: Sketch): number {
  const name = glyphAt(kind, side);
  const half = name ? (glyph(name).bottom - glyph(name).top) / 2 : 0.1;
  const reach = name ? (glyph(name).right - glyph(name).left) / 2 : 0.6;
  const beyond = edge + side * 1.1;
  return side < 0
    ? Math.min(beyond, -0.2 - half, sketch.above(x - reach, x + reach, 0) - 0.25 - half)
    : Math.max(beyond, 4.2 + half, sketch.below(x - reach, x + reach, 4) + 0.25 + half);
}

function headSideMarks(note: PlacedNote, sketch: Sketch): Mark[] {
  const { event, stem, heights } = note.shape;
  const side: -1 | 1 = stem === 'up' ? 1 : stem === 'down' ? -1 : heights[0]! >= 2 ? 1 : -1;
  const x = headCentre(note);
  let edge = side < 0 ? Math.min(...heights) : Math.max(...heights);
  const marks: Mark[] = [];
  for (const kind of AT_HEAD.filter(each => event.articulations.includes(each))) {
    const small = kind === 'staccato' || kind === 'tenuto';
    const y = small ? toSpace(edge + side, side) : outsideStaff(kind, x, edge, side, sketch);
    marks.push(shapeOf(kind, side, x, y, event.id));
    edge = small ? y : y + side * 0.3;
  }
  return marks;
}

/** Staccato, tenuto, accent and their kin, which slurs go round. */
export function drawArticulations(system: PlacedSystem, sketch: Sketch): void {
  for (const note of system.notes) {
    const marks = headSideMarks(note, sketch);
    if (marks.length > 0) sketch.add(note.measure, marks);
  }
}

/** Marks that stand above the staff whatever the stem does. */
export function drawFermatas(system: PlacedSystem, sketch: Sketch): void {
  for (const { column, x, restX } of system.columns) {
    const event = column.note?.event ?? column.rest?.event;
    if (!event) continue;
    const centre = (column.rest ? restX : x) + column.centre;
    const over = (name: GlyphName, role: 'fermata' | 'articulation', gap: number) => {
      const reach = (glyph(name).right - glyph(name).left) / 2 + 0.1;
      const y = sketch.above(centre - reach, centre + reach, -0.2) - gap - glyph(name).bottom;
      sketch.add(column.measure, [{ ...centred(name, centre, y, event.id), role }]);
    };
    if (event.kind === 'note' && event.articulations.includes('marcato'))
      over('marcatoAbove', 'articulation', 0.35);
    if (event.fermata) over('fermata', 'fermata', 0.35);
    if (event.kind === 'note') drawBreath(system, column.measure, event.articulations, x, sketch);
  }
}

/** A comma or two strokes at the end of a note, on the top line. */
function drawBreath(
  system: PlacedSystem,
  measure: number,
  marks: readonly Articulation[],
  x: number,
  sketch: Sketch,
): void {
  const name = marks.includes('breath') ? 'breath' : marks.includes('caesura') ? 'caesura' : undefined;
  if (!name) return;
  const next = system.columns.find(each => each.x > x + 0.5)?.x ?? Infinity;
  const bar = system.bars.find(each => each.x > x)?.x ?? system.width;
  const end = Math.min(next, bar);
  const { right, bottom } = glyph(name);
  const from = end - right - 0.5;
  const home = name === 'breath' ? -0.6 : -0.2;
  const y = Math.min(home, sketch.above(from - 0.1, from + right + 0.1, 0.5) - 0.25 - bottom);
  sketch.add(measure, [{ kind: 'glyph', role: 'articulation', name, x: from, y, size: 1 }]);
}
