/** The tablature: a line a string, broken behind each figure; or empty lines to fill in. */

import { pitchName } from '../../score/pitch.ts';
import type { Box } from '../drawing/box.ts';
import { bounds, type Mark, move } from '../drawing/mark.ts';
import { face } from '../font/face.ts';
import { figureBaseline } from '../measure/digits.ts';
import { richText, rightEdge } from '../measure/rich-text.ts';
import { STYLE } from '../style.ts';
import { curve } from './curves.ts';
import type { PlacedSystem } from './placed.ts';
import { type Sketch, SYSTEM } from './sketch.ts';

/** Line's clearance at each side of a figure. */
const CLEAR = 0.18;

export const tabHeight = (strings: number): number => (strings - 1) * STYLE.tabSpace;

/** T A B, upright, shared out over the height of the lines. */
function tabClef(strings: number, x: number): Mark[] {
  const height = tabHeight(strings);
  const size = Math.min(2.7, Math.max(1.9, height / 2.35));
  const cap = (face('serifBold').capHeight / 1000) * size;
  const pitch = Math.min(cap * 1.22, (height - cap) / 2 + 0.25);
  return ['T', 'A', 'B'].map((letter, i) => ({
    kind: 'text',
    role: 'clef',
    text: letter,
    face: 'serifBold',
    x,
    y: height / 2 + (i - 1) * pitch + cap / 2,
    size,
    anchor: 'middle',
  }));
}

/** The open strings' names on their lines, once, at the start. */
function stringNames({ notation: { arrangement } }: PlacedSystem, x: number): Mark[] {
  const size = 1.5;
  return arrangement.instrument.strings.flatMap((pitch, i) => {
    const name = pitchName(pitch, false);
    const { width } = richText(name, { role: 'number', face: 'serifItalic', size });
    return richText(
      name,
      { role: 'number', face: 'serifItalic', size },
      x - width / 2,
      figureBaseline(i * STYLE.tabSpace, size),
    ).marks;
  });
}

/** One string's line in pieces, left out where a figure or letter stands on it. */
function brokenLine(y: number, width: number, marks: readonly Box[]): Mark[] {
  const gaps = marks
    .filter(box => box.top < y + 0.2 && box.bottom > y - 0.2)
    .map(box => [box.left - CLEAR, box.right + CLEAR] as const)
    .sort((a, b) => a[0] - b[0]);
  const pieces: Mark[] = [];
  let x = 0;
  const piece = (to: number) => {
    if (to - x > 0.05)
      pieces.push({
        kind: 'line',
        role: 'tab-line',
        x1: x,
        y1: y,
        x2: to,
        y2: y,
        thickness: STYLE.staffLine * 0.8,
      });
  };
  for (const [from, to] of gaps) {
    piece(from);
    x = Math.max(x, to);
  }
  piece(width);
  return pieces;
}

/** Slurs again over their figures. */
function slurMarks(system: PlacedSystem, digits: ReadonlyMap<number, Mark>): Mark[] {
  const figure = (event: number) => {
    const head = system.byEvent.get(event)?.shape.event.heads.at(-1);
    const mark = head && digits.get(head.id);
    return mark && bounds(mark);
  };
  return system.notation.tune.slurs.flatMap(({ from, to }) => {
    const start = figure(from);
    const stop = figure(to);
    if (!start || !stop) return [];
    const lift = 0.25;
    const first = { x: (start.left + start.right) / 2, y: start.top - lift };
    const last = { x: (stop.left + stop.right) / 2, y: stop.top - lift };
    if (last.x - first.x < 1) return [];
    return [curve('tab-curve', first, last, -1, Math.min(0.8, 0.35 + (last.x - first.x) * 0.03), from)];
  });
}

/** Draws the tablature with its top line at y. */
export function drawTablature(system: PlacedSystem, sketch: Sketch, y: number): void {
  const { notation, columns, kind, width, isFirst, headRight } = system;
  const strings = notation.arrangement.instrument.strings.length;
  const clef = tabClef(strings, 1.5);
  const names = isFirst && headRight > 5 ? stringNames(system, Math.max(3.6, rightEdge(clef) + 1)) : [];
  const occupied = [...clef, ...names].map(bounds);
  const byHead = new Map<number, Mark>();
  if (kind.tablature === 'figures') {
    for (const { column, x } of columns) {
      const figures = move(column.digits, x, 0);
      for (const mark of figures) if (mark.of !== undefined) byHead.set(mark.of, mark);
      occupied.push(...figures.map(bounds));
      if (figures.length > 0) sketch.add(column.measure, move(figures, 0, y));
    }
  }
  sketch.add(SYSTEM, move([...clef, ...names], 0, y));
  const lines = Array.from({ length: strings }, (_, i) =>
    brokenLine(i * STYLE.tabSpace, width, occupied),
  ).flat();
  sketch.add(SYSTEM, move(lines, 0, y));
  const slurs = slurMarks(system, byHead);
  if (slurs.length > 0) sketch.add(SYSTEM, move(slurs, 0, y));
}
