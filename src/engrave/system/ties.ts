/** Ties: from head to head, on the side away from the stem; both halves of one that a system breaks. */
import type { Head } from '../../score/model/event.ts';
import { bow, type End } from '../drawing/curve.ts';
import type { Mark } from '../drawing/mark.ts';
import { arriving, leaving, type Side } from './bows.ts';
import {
  headLeft,
  headRight,
  isTiedFromAfar,
  measureSpan,
  type PlacedNote,
  type PlacedSystem,
} from './placed.ts';
import { type Sketch, SYSTEM } from './sketch.ts';

/** −1 (above) or 1 (below): away from the stem; in a chord outwards from its middle. */
function tieSide({ shape }: PlacedNote, index: number): Side {
  const count = shape.heights.length;
  if (count > 1) return index >= count / 2 ? -1 : 1;
  return shape.stem ? (shape.stem === 'up' ? 1 : -1) : shape.heights[0]! >= 2 ? 1 : -1;
}

const tieHeight = (length: number) => Math.min(1.05, 0.3 + length * 0.09);

function tieMark(from: End, to: End, side: Side, of: number): Mark {
  return bow('tie', from, to, side, tieHeight(to.x - from.x), of);
}

function tieEnds(note: PlacedNote, index: number, side: Side): { start: End; stop: End } {
  const y = note.shape.heights[index]! + side * 0.62;
  const left = headLeft(note);
  const width = note.shape.headWidth;
  return { start: { x: left + width * 0.72, y }, stop: { x: left + width * 0.28, y } };
}

/** Whether grace notes at or over the height of a tied note stand between it and its other end. */
function gracesOver({ notes }: PlacedSystem, from: PlacedNote, to: PlacedNote): boolean {
  const between = notes.slice(notes.indexOf(from) + 1, notes.indexOf(to));
  const height = Math.min(...from.shape.heights);
  return between.some(({ shape }) => shape.size < 1 && shape.heights.some(each => each <= height));
}

/** Whether a tie under two heads would meet the stem of the second, which points down where that of the first does not. */
const meetsStem = (to: PlacedNote, side: Side): boolean => side > 0 && to.shape.stem === 'down';

/** Under both heads, beside the stem of the second. */
function besideStem(from: PlacedNote, to: PlacedNote, of: number): Mark {
  const start = { x: headRight(from) - 0.25, y: from.shape.heights[0]! + 0.62 };
  return tieMark(start, { x: headLeft(to) - 0.15, y: to.shape.heights[0]! + 0.4 }, 1, of);
}

/** All ties of a system, halves of broken ones included. */
export function drawTies(system: PlacedSystem, sketch: Sketch): void {
  for (const note of system.notes) {
    note.shape.event.heads.forEach((head: Head, index) => {
      const side = tieSide(note, index);
      const { start, stop } = tieEnds(note, index, side);
      const to = head.tieTo === undefined ? undefined : system.byHead.get(head.tieTo);
      const isSingle = note.shape.heights.length === 1 && to?.shape.heights.length === 1;
      if (to && isSingle && (meetsStem(to, side) || (side < 0 && gracesOver(system, note, to)))) {
        sketch.add(note.measure, [besideStem(note, to, head.id)]);
      } else if (head.tieTo !== undefined) {
        const at = to?.shape.event.heads.findIndex(each => each.id === head.tieTo) ?? 0;
        const end = to ? tieEnds(to, at, side).stop : leaving(system, start.y);
        if (end.x > start.x) sketch.add(to ? note.measure : SYSTEM, [tieMark(start, end, side, head.id)]);
      }
      if (isTiedFromAfar(system, head)) {
        const { content } = measureSpan(system, note.measure);
        sketch.add(SYSTEM, [tieMark(arriving(content, stop.x, stop.y), stop, side, head.id)]);
      }
    });
  }
}
