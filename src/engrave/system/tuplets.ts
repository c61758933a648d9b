/** Tuplet figures, on the beam's side; with a bracket where no beam shows the group. */
import type { Tuplet } from '../../score/model.ts';
import type { Mark } from '../drawing/mark.ts';
import { face, textWidth } from '../font/face.ts';
import { beamY, type PlacedBeam } from './beams.ts';
import { bracketMarks } from './bracket.ts';
import type { PlacedColumn, PlacedSystem } from './placed.ts';
import type { Sketch } from './sketch.ts';

const SIZE = 1.7;
/** The ends of a bracket, and what is free beside its figure. */
const HOOK = 0.7;
const BESIDE_FIGURE = 0.35;

interface Member extends PlacedColumn {
  readonly left: number;
  readonly right: number;
}

/** Whether a tuplet's ends stand in this system: one that goes over a bar line may be broken. */
const hasEnds = ({ from, to }: Tuplet, at: ReadonlyMap<number, number>) => ({
  left: at.has(from),
  right: at.has(to),
});

/** The columns that a tuplet covers in this system, out of where each event stands. */
function members({ columns }: PlacedSystem, { from, to }: Tuplet, at: ReadonlyMap<number, number>): Member[] {
  const events = [...at.keys()];
  const first = at.get(from) ?? (from < events[0]! ? 0 : undefined);
  const last = at.get(to) ?? (to > events.at(-1)! ? columns.length - 1 : undefined);
  const isHere = at.has(from) || at.has(to);
  if (!isHere || first === undefined || last === undefined || last < first) return [];
  return columns.slice(first, last + 1).map(each => ({
    ...each,
    left: each.x,
    right: each.x + (each.column.note?.headWidth ?? each.column.rest?.width ?? 0),
  }));
}

/** The beam that covers exactly this tuplet. */
function ownBeam(tuplet: Tuplet, beams: readonly PlacedBeam[]): PlacedBeam | undefined {
  return beams.find(
    ({ group: { events } }) => events[0]!.id === tuplet.from && events.at(-1)!.id === tuplet.to,
  );
}

function goesUp(group: readonly Member[]): boolean {
  const ups = group.filter(({ column }) => column.note?.stem === 'up').length;
  const downs = group.filter(({ column }) => column.note?.stem === 'down').length;
  return ups >= downs;
}

const label = ({ actual, normal, show }: Tuplet) => (show === 'both' ? `${actual}:${normal}` : `${actual}`);

function figure(text: string, x: number, middle: number): Mark {
  const y = middle + (face('serifItalic').figureHeight / 2000) * SIZE;
  return { kind: 'text', role: 'tuplet', text, face: 'serifItalic', x, y, size: SIZE, anchor: 'middle' };
}

/** Tops of the fingers over a tuplet: in a row with them its figure would read as one of them. */
const fingersOver = (sketch: Sketch, left: number, right: number): readonly number[] =>
  sketch
    .overStaff('finger')
    .filter(box => box.left < right && box.right > left)
    .map(({ top }) => top);

/** Marks of one tuplet; deeper ones are drawn first, so that outer ones go round them. */
function tupletMarks(
  system: PlacedSystem,
  tuplet: Tuplet,
  beams: readonly PlacedBeam[],
  sketch: Sketch,
  at: ReadonlyMap<number, number>,
): Mark[] {
  const group = members(system, tuplet, at);
  if (group.length === 0) return [];
  const text = tuplet.show === 'none' ? '' : label(tuplet);
  const beam = ownBeam(tuplet, beams);
  const up = beam ? beam.up : goesUp(group);
  const left = group[0]!.left;
  const right = group.at(-1)!.right;
  const bracket = tuplet.bracket ?? beam === undefined;
  if (beam && !bracket) {
    if (text === '') return [];
    const x = (beam.xs[0]! + beam.xs.at(-1)!) / 2;
    const inside = up
      ? Math.min(sketch.above(x - 0.6, x + 0.6, beamY(beam, x)), ...fingersOver(sketch, left, right))
      : sketch.below(x - 0.6, x + 0.6, beamY(beam, x));
    return [figure(text, x, inside + (up ? -0.8 : 0.8))];
  }
  const edge = up ? sketch.above(left, right, -0.2) - 1.1 : sketch.below(left, right, 4.2) + 1.1;
  if (!bracket) return text === '' ? [] : [figure(text, (left + right) / 2, edge)];
  const middle = (left + right) / 2;
  const hook = up ? HOOK : -HOOK;
  const ends = hasEnds(tuplet, at);
  const room = textWidth(text, 'serifItalic', SIZE) / 2 + BESIDE_FIGURE;
  return [
    ...bracketMarks({
      role: 'tuplet',
      left,
      right,
      y: edge,
      hooks: { left: ends.left ? hook : 0, right: ends.right ? hook : 0 },
      ...(text !== '' && { open: { left: middle - room, right: middle + room } }),
    }),
    ...(text === '' ? [] : [figure(text, middle, edge)]),
  ];
}

export function drawTuplets(system: PlacedSystem, beams: readonly PlacedBeam[], sketch: Sketch): void {
  const at = new Map<number, number>();
  system.columns.forEach(({ column }, index) => {
    const id = column.note?.event.id ?? column.rest?.event.id;
    if (id !== undefined) at.set(id, index);
  });
  const inner = [...system.notation.tune.tuplets].sort((a, b) => b.depth - a.depth);
  for (const tuplet of inner) {
    const marks = tupletMarks(system, tuplet, beams, sketch, at);
    const measure = system.byEvent.get(tuplet.from)?.measure ?? system.line.first;
    if (marks.length > 0) sketch.add(measure, marks);
  }
}
