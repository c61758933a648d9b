/** Slurs: away from the stems where all point one way, above otherwise; outer ones go round inner ones, and round ties. */
import type { Articulation } from '../../score/model/event.ts';
import type { Slur } from '../../score/model.ts';
import { bow, type CurveMark, type End } from '../drawing/curve.ts';
import { bounds } from '../drawing/mark.ts';
import { beamY, type PlacedBeam } from './beams.ts';
import { arriving, clearingBow, leaving, passesThrough, ridge, type Side } from './bows.ts';
import { headCentre, headLeft, headRight, type PlacedNote, type PlacedSystem } from './placed.ts';
import { type Sketch, SYSTEM } from './sketch.ts';

/** How far an outer slur starts from an inner one, or a tie, on the same note. */
const NESTED = 0.45;

type Beams = ReadonlyMap<number, PlacedBeam>;

/** A slur or a tie that is drawn, from one event to another. */
interface Drawn {
  readonly from: number;
  readonly to: number;
  readonly side: Side;
  readonly mark: CurveMark;
}

/** Notes under a slur within this system. */
function covered(
  { notes }: PlacedSystem,
  from: PlacedNote | undefined,
  to: PlacedNote | undefined,
): PlacedNote[] {
  const first = from ? notes.indexOf(from) : 0;
  const last = to ? notes.indexOf(to) : notes.length - 1;
  return notes.slice(first, last + 1);
}

/** By the stems as they are here: the side that a file gives was for another instrument, or another key. */
function slurSide(under: readonly PlacedNote[]): Side {
  const main = under.filter(note => note.shape.size === 1);
  return main.length > 0 && main.every(note => note.shape.stem !== 'down') ? 1 : -1;
}

/** The edge of a head and of the marks at it; an accent stands outside the staff. */
function markedEdge({ event }: PlacedNote['shape'], head: number, side: Side): number {
  const has = (kind: Articulation) => event.articulations.includes(kind);
  const small = has('staccato') || has('tenuto') || has('staccatissimo') ? 0.75 : 0;
  const edge = head + side * (0.55 + small);
  if (!has('accent')) return edge;
  const accent = head + side * (1.1 + small);
  return side < 0 ? Math.min(accent, -0.7) - 0.55 : Math.max(accent, 4.7) + 0.55;
}

/** The ink of a note on one side: its head and the marks at it, or the tip of its stem or beam. */
function edgeOf(note: PlacedNote, side: Side, beams: Beams): number {
  const { shape, x } = note;
  const head = side < 0 ? Math.min(...shape.heights) : Math.max(...shape.heights);
  const stemThere = shape.stem === (side < 0 ? 'up' : 'down');
  if (!stemThere) return markedEdge(shape, head, side);
  const beam = beams.get(shape.event.id);
  const tip = beam ? beamY(beam, x + shape.stemX) + side * 0.25 : shape.stemTip;
  return side < 0 ? Math.min(head - 0.55, tip) : Math.max(head + 0.55, tip);
}

/** Points that a slur over notes goes round: their edges, and the accidentals and fingers before them. */
function obstaclesOf(under: readonly PlacedNote[], side: Side, beams: Beams): End[] {
  return under.flatMap(note => {
    const y = edgeOf(note, side, beams);
    const signs = note.shape.marks
      .filter(({ role }) => role === 'accidental' || role === 'finger')
      .map(bounds);
    return [
      { x: headCentre(note), y },
      { x: note.x + note.shape.stemX, y },
      ...signs.flatMap(({ left, right, top, bottom }) =>
        [left, right].map(x => ({ x: note.x + x, y: (side < 0 ? top : bottom) - side * 0.15 })),
      ),
    ];
  });
}

/** The corner of a head that a slur from it, or to it, passes over on its way. */
function ownCorner(note: PlacedNote, side: Side, towards: 'left' | 'right', beams: Beams): End[] {
  if (note.shape.stem === (side < 0 ? 'up' : 'down')) return [];
  const x = towards === 'left' ? headLeft(note) : headRight(note);
  return [{ x, y: edgeOf(note, side, beams) - side * 0.3 }];
}

function slurEnd(note: PlacedNote, side: Side, beams: Beams): End {
  const stemThere = note.shape.stem === (side < 0 ? 'up' : 'down');
  const y = edgeOf(note, side, beams) + side * (stemThere ? 0.35 : 0.3);
  return { x: stemThere ? note.x + note.shape.stemX : headCentre(note), y };
}

/** From a grace note to its main note: a short curve under the heads, ending beside a downward stem, or under fingers. */
function graceSlur(from: PlacedNote, to: PlacedNote, id: number): CurveMark {
  const start = { x: headCentre(from), y: Math.max(...from.shape.heights) + 0.55 };
  const low = Math.max(...to.shape.heights);
  const fingered = to.shape.marks.some(({ role }) => role === 'finger');
  const stop =
    to.shape.stem === 'down' && !fingered
      ? { x: headLeft(to) - 0.12, y: low + 0.3 }
      : { x: headCentre(to) - 0.2, y: low + 0.7 };
  return bow('slur', start, stop, 1, 0.45 + 0.05 * (stop.x - start.x), id);
}

/** Ends of a slur in this system: at its notes, or at the system's edges. */
function slurEnds(
  system: PlacedSystem,
  slur: Slur,
  under: readonly PlacedNote[],
  side: Side,
  beams: Beams,
  inner: readonly Drawn[],
): { start: End; stop: End } {
  const from = system.byEvent.get(slur.from);
  const to = system.byEvent.get(slur.to);
  const beyond = (shared: boolean) => (shared ? side * NESTED : 0);
  const nested = (end: End, shared: boolean): End => ({ x: end.x, y: end.y + beyond(shared) });
  const first =
    from &&
    nested(
      slurEnd(from, side, beams),
      inner.some(each => each.from === slur.from),
    );
  const last =
    to &&
    nested(
      slurEnd(to, side, beams),
      inner.some(each => each.to === slur.to),
    );
  const outer = side < 0 ? Math.min : Math.max;
  /** Where a broken slur meets the system's edge: clear of the note that is next to it. */
  const broken = (note: PlacedNote, other: End | undefined) =>
    outer(edgeOf(note, side, beams) + side * 0.6, other ? other.y + side * 0.3 : -side * Infinity);
  return {
    start: first ?? arriving(system.headRight, last?.x ?? system.width, broken(under[0]!, last)),
    stop: last ?? leaving(system, broken(under.at(-1)!, first)),
  };
}

function drawSlur(
  system: PlacedSystem,
  slur: Slur,
  beams: Beams,
  drawn: readonly Drawn[],
): Drawn | undefined {
  const from = system.byEvent.get(slur.from);
  const to = system.byEvent.get(slur.to);
  if (!from && !to && !passesThrough(system, slur)) return undefined;
  const under = covered(system, from, to);
  if (under.length === 0) return undefined;
  if (from && to && from.shape.size < 1 && from.x === to.x)
    return { from: slur.from, to: slur.to, side: 1, mark: graceSlur(from, to, slur.from) };
  const side = slurSide(under);
  const inner = drawn.filter(each => each.side === side && each.from >= slur.from && each.to <= slur.to);
  const { start, stop } = slurEnds(system, slur, under, side, beams, inner);
  if (stop.x - start.x < 0.5) return undefined;
  const obstacles = [
    ...obstaclesOf(under, side, beams),
    ...(from ? ownCorner(from, side, 'right', beams) : []),
    ...(to ? ownCorner(to, side, 'left', beams) : []),
    ...inner.flatMap(({ mark }) => ridge(mark)),
  ];
  const mark = clearingBow({ role: 'slur', from: start, to: stop, side, obstacles, of: slur.from });
  return { from: slur.from, to: slur.to, side, mark };
}

/** The ties that a system holds from end to end. */
const wholeTies = ({ byHead }: PlacedSystem, { marks }: Sketch): Drawn[] =>
  [...marks.values()].flat().flatMap(mark => {
    if (mark.kind !== 'curve' || mark.role !== 'tie' || mark.of === undefined) return [];
    const from = byHead.get(mark.of)?.shape.event;
    const tieTo = from?.heads.find(({ id }) => id === mark.of)?.tieTo;
    const to = tieTo === undefined ? undefined : byHead.get(tieTo)?.shape.event;
    const [[, end], [, bowed]] = mark.points;
    return from && to ? [{ from: from.id, to: to.id, side: bowed < end ? -1 : 1, mark }] : [];
  });

export function drawSlurs(system: PlacedSystem, beams: Beams, sketch: Sketch): void {
  // Inner slurs first, so that outer ones can go round them.
  const slurs = [...system.notation.tune.slurs].sort((a, b) => a.to - a.from - (b.to - b.from));
  const drawn = wholeTies(system, sketch);
  for (const slur of slurs) {
    const one = drawSlur(system, slur, beams, drawn);
    if (!one) continue;
    drawn.push(one);
    sketch.add(system.byEvent.get(slur.from)?.measure ?? SYSTEM, [one.mark]);
  }
}
