/**
 * Beams. Among the places where a beam may lie (its ends sitting on, hanging from or straddling staff
 * lines) the one is taken whose stems come nearest to their proper length at about the wished slope.
 */
import type { BeamGroup, BeamSegment } from '../content/beams.ts';
import type { Mark } from '../drawing/mark.ts';
import { STYLE } from '../style.ts';
import type { PlacedNote, PlacedSystem } from './placed.ts';

/** Stem lengths for 1, 2, 3 … beams: wished, and the shortest. */
const WISHED = [3.4, 3.5, 4.1, 4.85, 5.6, 6.35, 7.1, 7.85];
const SHORTEST = [2.5, 2.9, 3.6, 4.35, 5.1, 5.85, 6.6, 7.35];
const STEEPEST = 1;
/** A beam's middle relative to a staff line: hanging, straddling, sitting. */
const SEATS = [0.19, 0, -0.19];

export interface PlacedBeam {
  readonly group: BeamGroup;
  readonly notes: readonly PlacedNote[];
  readonly up: boolean;
  readonly size: number;
  /** Middle of the outermost beam at the first stem, and its rise to the last. */
  readonly y: number;
  readonly slope: number;
  readonly xs: readonly number[];
}

export const beamY = ({ y, slope, xs }: PlacedBeam, x: number): number => y + slope * (x - xs[0]!);

interface Problem {
  readonly xs: readonly number[];
  /** Heads nearest to the beam, flipped so that the beam always lies above (negative y). */
  readonly heads: readonly number[];
  readonly levels: number;
  readonly size: number;
}

/** The slope the outer notes ask for, as a rise over the whole beam; none where inner notes bulge. */
function wishedRise({ xs, heads, size }: Problem): number {
  const first = heads[0]!;
  const last = heads.at(-1)!;
  const inner = heads.slice(1, -1);
  const bulges = inner.length > 0 && Math.min(...inner) <= Math.min(first, last);
  if (first === last || bulges) return 0;
  const span = xs.at(-1)! - xs[0]!;
  const limit = Math.min(STEEPEST * size, span * 0.16);
  const rise = Math.min(Math.abs(last - first) * 0.45, limit);
  return last > first ? rise : -rise;
}

function cost({ xs, heads, levels, size }: Problem, from: number, to: number, wish: number): number {
  const span = xs.at(-1)! - xs[0]!;
  const wished = WISHED[levels - 1]! * size;
  const shortest = SHORTEST[levels - 1]! * size;
  let sum = 8 * (to - from - wish) ** 2;
  for (let i = 0; i < xs.length; i++) {
    const y = from + ((to - from) * (xs[i]! - xs[0]!)) / span;
    const length = heads[i]! - y;
    const gap = length - wished;
    sum += ((gap < 0 ? 2 : 1) * gap * gap) / xs.length;
    if (length < shortest) sum += 100 * (shortest - length);
    // From beyond the ledger lines the stem reaches the middle line.
    if (size === 1 && y > 2) sum += 100 * (y - 2);
  }
  return sum;
}

function seats(around: number, size: number): number[] {
  if (size < 1) return [around - 0.3, around, around + 0.3];
  const lines = [-2, -1, 0, 1, 2].map(step => Math.round(around) + step);
  return lines.flatMap(line => SEATS.map(seat => line + seat));
}

function solve(problem: Problem): { from: number; to: number } {
  const { xs, heads, levels, size } = problem;
  const wish = wishedRise(problem);
  const span = xs.at(-1)! - xs[0]!;
  // The line of the wished slope that leaves the tightest note its proper length.
  const wished = WISHED[levels - 1]! * size;
  const tightest = Math.min(...xs.map((x, i) => heads[i]! - (wish * (x - xs[0]!)) / span));
  const aim = Math.min(size === 1 ? 2 - Math.max(wish, 0) : Infinity, tightest - wished * 0.93);
  let best = { from: aim, to: aim + wish, cost: Infinity };
  const ends = seats(aim + wish, size);
  for (const from of seats(aim, size)) {
    for (const to of wish === 0 ? [from] : ends) {
      if (
        wish !== 0 &&
        (Math.sign(to - from) !== Math.sign(wish) || Math.abs(to - from) > STEEPEST * size + 0.2)
      )
        continue;
      const now = cost(problem, from, to, wish);
      if (now < best.cost - 1e-9) best = { from, to, cost: now };
    }
  }
  return best;
}

/** Lays a group's beam; undefined where not all its notes stand in this system. */
export function placeBeam({ byEvent }: PlacedSystem, group: BeamGroup): PlacedBeam | undefined {
  const notes = group.events.map(event => byEvent.get(event.id));
  if (!notes.every(note => note !== undefined)) return undefined;
  const up = notes[0]!.shape.stem === 'up';
  const size = notes[0]!.shape.size;
  const xs = notes.map(({ shape, x }) => x + shape.stemX);
  const nearest = notes.map(({ shape }) => (up ? Math.min(...shape.heights) : Math.max(...shape.heights)));
  const levels = Math.max(...group.segments.map(segment => segment.level));
  const flip = (y: number) => (up ? y : 4 - y);
  const { from, to } = solve({ xs, heads: nearest.map(flip), levels, size });
  const slope = (flip(to) - flip(from)) / (xs.at(-1)! - xs[0]!);
  return { group, notes, up, size, y: flip(from), slope, xs };
}

/** A segment as a parallelogram; levels lie one beam and one gap apart, towards the heads. */
function segmentMark(beam: PlacedBeam, { level, from, to, hook }: BeamSegment): Mark {
  const { up, size, xs } = beam;
  const half = (STYLE.stem / 2) * size;
  const reach = STYLE.hook * size;
  const left = xs[from]! - (hook === 'left' ? reach : half);
  const right = xs[to]! + (hook === 'right' ? reach : half);
  const inward = (level - 1) * (STYLE.beam + STYLE.beamGap) * size * (up ? 1 : -1);
  const thick = (STYLE.beam / 2) * size;
  const y = (x: number, edge: number) => beamY(beam, x) + inward + edge;
  const points = [
    [left, y(left, -thick)],
    [right, y(right, -thick)],
    [right, y(right, thick)],
    [left, y(left, thick)],
  ] as const;
  return { kind: 'polygon', role: 'beam', points };
}

/** A stroke through the first stem and the beams of grace notes that are slashed, clear of the accidental after it. */
const slashMark = ({ notes, xs, y }: PlacedBeam): Mark[] =>
  notes[0]!.shape.event.grace === 'slashed'
    ? [
        {
          kind: 'line',
          role: 'grace',
          x1: xs[0]! - 0.7,
          y1: y + 0.95,
          x2: xs[0]! + 0.2,
          y2: y - 0.45,
          thickness: 0.1,
        },
      ]
    : [];

/** The beams of a group and the stems that hang on them. */
export function beamMarks(beam: PlacedBeam): Mark[] {
  const { group, notes, size, xs, up } = beam;
  const stems = notes.map(({ shape }, i): Mark => {
    const x = xs[i]!;
    return {
      kind: 'line',
      role: 'stem',
      x1: x,
      y1: shape.stemFoot,
      x2: x,
      y2: beamY(beam, x) + (up ? -1 : 1) * (STYLE.beam / 2 - 0.03) * size,
      thickness: STYLE.stem * (size < 1 ? 0.8 : 1),
      of: shape.event.id,
    };
  });
  return [...stems, ...group.segments.map(segment => segmentMark(beam, segment)), ...slashMark(beam)];
}
