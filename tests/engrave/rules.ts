/** Rules of stems, beams, ties and slurs of the tablature, read back from pages of marks; each returns what breaks it, in words. */
import { type Box, union } from '../../src/engrave/drawing/box.ts';
import { type CurveMark, pointAt } from '../../src/engrave/drawing/curve.ts';
import type { LineMark } from '../../src/engrave/drawing/line.ts';
import { bounds, type Mark } from '../../src/engrave/drawing/mark.ts';
import type { PolygonMark } from '../../src/engrave/drawing/polygon.ts';
import type { Group, Page } from '../../src/engrave/engrave.ts';
import type { Tune } from '../../src/score/tune.ts';

/** A system as a reader sees it: its marks, its staff's top line and staff space in mm. */
interface Seen {
  readonly marks: readonly Mark[];
  readonly top: number;
  readonly space: number;
}

function seen(groups: readonly Group[]): Seen {
  const marks = groups.flatMap(group => group.marks);
  const lines = marks.filter(mark => mark.role === 'staff').map(mark => (mark as LineMark).y1);
  const top = Math.min(...lines);
  return { marks, top, space: (Math.max(...lines) - top) / 4 };
}

/** The systems of all pages, in order. */
export function systemsOf(pages: readonly Page[]): Seen[] {
  return pages.flatMap(({ groups }) => {
    const starts = groups.flatMap(({ className }, i) => (className === 'system' ? [i] : []));
    return starts.map((start, i) =>
      seen(groups.slice(start, starts[i + 1]).filter(({ className }) => /system|measure/.test(className))),
    );
  });
}

const boxesOf = ({ marks }: Seen, role: Mark['role']): Box[] =>
  marks.filter(mark => mark.role === role).map(bounds);

/** Shortest stem, and the longest that flags or beams ask for, sp (common practice). */
const SHORTEST = 2.5;
const LONGEST = 5.6;
/** Rounding on the page. */
const SLACK = 0.25;

/** How far a stem may reach: to the middle line from ledger lines, over all heads of its chord or beam, or for its flags. */
function longest(system: Seen, stem: LineMark): number {
  const { top, space } = system;
  const [high, low] = [Math.min(stem.y1, stem.y2), Math.max(stem.y1, stem.y2)];
  const middle = top + 2 * space;
  const toMiddle = Math.max(Math.abs(high - middle), Math.abs(low - middle)) / space;
  const beams = boxesOf(system, 'beam').filter(
    ({ left, right }) => left - 0.1 < stem.x1 && right + 0.1 > stem.x1,
  );
  const spans = [...beams, { left: stem.x1, right: stem.x1 }];
  const heads = boxesOf(system, 'head').filter(head =>
    spans.some(({ left, right }) => head.right > left - 0.1 && head.left < right + 0.1),
  );
  const under = union(heads);
  const span = under ? (under.bottom - under.top) / space : 0;
  return Math.max(LONGEST + span, toMiddle) + SLACK;
}

/** Stems of notes of full size. */
function stemsOf(system: Seen): LineMark[] {
  const graces = boxesOf(system, 'grace');
  const stems = system.marks.filter(mark => mark.role === 'stem') as LineMark[];
  return stems.filter(({ x1 }) => !graces.some(({ left, right }) => left <= x1 && right >= x1));
}

/** Stems that are shorter than 2.5 sp or longer than what stands on them asks for. */
export const stemFaults = (pages: readonly Page[]): string[] =>
  systemsOf(pages).flatMap(system =>
    stemsOf(system).flatMap(stem => {
      const length = Math.abs(stem.y2 - stem.y1) / system.space;
      const isFault = length < SHORTEST - SLACK || length > longest(system, stem);
      return isFault ? [`a stem of ${length.toFixed(2)} sp`] : [];
    }),
  );

/** Beams that rise by more than about a space (1 sp between stems, a little more to the edges). */
export const beamFaults = (pages: readonly Page[]): string[] =>
  systemsOf(pages).flatMap(({ marks, space }) =>
    (marks.filter(mark => mark.role === 'beam') as PolygonMark[]).flatMap(({ points }) => {
      const rise = Math.abs(points[0]![1] - points[1]![1]) / space;
      return rise > 1.25 ? [`a beam that rises ${rise.toFixed(2)} sp`] : [];
    }),
  );

/** Whether a curve's end lies at a head: within its width, above or below it. */
function meets([x, y]: readonly [number, number], head: Box | undefined, space: number): boolean {
  if (!head) return false;
  const near = y > head.top - space && y < head.bottom + space;
  return near && x > head.left - 0.2 * space && x < head.right + 0.2 * space;
}

/** Ties that do not go from head to head, or, where a system ends between, from head to edge on both sides. */
export function tieFaults(tune: Tune, pages: readonly Page[]): string[] {
  const systems = systemsOf(pages);
  const heads = systems.map(({ marks }) => {
    const drawn = marks.filter(({ role }) => role === 'head' || role === 'grace');
    return new Map(drawn.map(mark => [mark.of, bounds(mark)] as const));
  });
  const headIn = (system: number, id: number) => heads[system]!.get(id);
  const where = (id: number) => heads.findIndex(each => each.has(id));
  const tied = (system: number, id: number) =>
    (systems[system]!.marks.filter(({ role }) => role === 'tie') as CurveMark[]).filter(
      ({ of }) => of === id,
    );
  const events = tune.measures.flatMap(measure => measure.events);
  return events.flatMap(event =>
    (event.kind === 'note' ? event.heads : []).flatMap(({ id, tieTo }) => {
      if (tieTo === undefined) return [];
      const [from, to] = [where(id), where(tieTo)];
      const start = tied(from, id).some(({ points }) =>
        meets(points[0], headIn(from, id), systems[from]!.space),
      );
      const ends = from === to ? tied(from, id) : tied(to, tieTo);
      const stop = ends.some(({ points }) => meets(points[3], headIn(to, tieTo), systems[to]!.space));
      return start && stop ? [] : [`the tie from head ${id} to head ${tieTo}`];
    }),
  );
}

/** Whether a curve's end lies over a figure of the tablature, near enough to belong to it. */
const isOver = ([x, y]: readonly [number, number], { left, right, top }: Box, space: number): boolean =>
  x > left && x < right && y < top && y > top - 0.75 * space;

/**
 * Slurs that the tablature does not show in each system that they run through, or that do not start over their first
 * figure and end over their last.
 */
export function tabSlurFaults(tune: Tune, pages: readonly Page[]): string[] {
  const systems = systemsOf(pages).map(({ marks, space }) => ({
    space,
    heads: new Set(marks.filter(({ role }) => role === 'head' || role === 'grace').map(({ of }) => of)),
    digits: new Map(
      marks.filter(({ role }) => role === 'digit').map(mark => [mark.of, bounds(mark)] as const),
    ),
    curves: marks.filter(({ kind, role }) => kind === 'curve' && role === 'tab-curve') as CurveMark[],
  }));
  const headsOf = new Map(
    tune.measures
      .flatMap(({ events }) => events)
      .flatMap(event =>
        event.kind === 'note' ? [[event.id, event.heads.map(({ id }) => id)] as const] : [],
      ),
  );
  return tune.slurs.flatMap(({ from, to }) => {
    const systemOf = (event: number) =>
      systems.findIndex(({ heads }) => headsOf.get(event)?.some(head => heads.has(head)));
    const [first, last] = [systemOf(from), systemOf(to)];
    const faults = systems.slice(first, last + 1).map(({ curves, digits, space }, i) => {
      const own = curves.filter(({ of }) => of === from);
      const meetsFigure = (event: number, end: 0 | 3) => {
        const boxes = headsOf.get(event)!.flatMap(head => digits.get(head) ?? []);
        return (
          boxes.length === 0 || own.some(({ points }) => boxes.some(box => isOver(points[end], box, space)))
        );
      };
      const starts = i > 0 || meetsFigure(from, 0);
      const ends = first + i < last || meetsFigure(to, 3);
      return own.length > 0 && starts && ends;
    });
    return faults.every(Boolean) ? [] : [`the slur from event ${from} to event ${to} on the tablature`];
  });
}

/** Figures of tuplets that stand in a row with the finger of a note near by, which they would be read as. */
export const tupletFaults = (pages: readonly Page[]): string[] =>
  systemsOf(pages).flatMap(system => {
    const fingers = boxesOf(system, 'finger');
    const figures = system.marks.filter(({ kind, role }) => kind === 'text' && role === 'tuplet').map(bounds);
    return figures.flatMap(({ left, right, top, bottom }) => {
      const beside = fingers.some(
        box =>
          box.left < right + 2 * system.space &&
          box.right > left - 2 * system.space &&
          box.top < bottom &&
          box.bottom > top,
      );
      return beside ? ['a tuplet figure beside a finger'] : [];
    });
  });

/** Ties that cross a stem. */
export const crossedStems = (pages: readonly Page[]): string[] =>
  systemsOf(pages).flatMap(({ marks, space }) => {
    const stems = marks.flatMap(mark => (mark.kind === 'line' && mark.role === 'stem' ? [mark] : []));
    const ties = marks.flatMap(mark => (mark.kind === 'curve' && mark.role === 'tie' ? [mark] : []));
    return ties.flatMap(tie => {
      const along = Array.from({ length: 41 }, (_, i) => pointAt(tie.points, i / 40));
      const crossed = stems.some(({ x1, y1, y2, thickness }) =>
        along.some(
          ([x, y]) =>
            Math.abs(x - x1) < Math.max(thickness, 0.05 * space) &&
            y > Math.min(y1, y2) - 0.02 * space &&
            y < Math.max(y1, y2) + 0.02 * space,
        ),
      );
      return crossed ? [`the tie from ${tie.of} crosses a stem`] : [];
    });
  });

/** Hooks of ending brackets that stand less than three quarters of a space from the next one, as if one double line. */
export const endingFaults = (pages: readonly Page[]): string[] =>
  systemsOf(pages).flatMap(({ marks, space }) => {
    const hooks = marks
      .flatMap(mark =>
        mark.kind === 'line' && mark.role === 'ending' && mark.x1 === mark.x2 ? [mark.x1] : [],
      )
      .sort((a, b) => a - b);
    return hooks.slice(1).flatMap((x, i) => {
      const gap = (x - hooks[i]!) / space;
      return gap < 0.75 ? [`ending brackets ${gap.toFixed(2)} sp apart`] : [];
    });
  });

/** Note letters, each with its accidental, that stand less than half a space from the next one. */
export const letterFaults = (pages: readonly Page[]): string[] =>
  systemsOf(pages).flatMap(({ marks, space }) => {
    const byHead = new Map<number, Box[]>();
    for (const mark of marks)
      if (mark.role === 'letter' && mark.of !== undefined)
        byHead.set(mark.of, [...(byHead.get(mark.of) ?? []), bounds(mark)]);
    const row = [...byHead.values()].map(boxes => union(boxes)!).sort((a, b) => a.left - b.left);
    return row.slice(1).flatMap(({ left }, i) => {
      const gap = (left - row[i]!.right) / space;
      return gap < 0.5 ? [`letters ${gap.toFixed(2)} sp apart`] : [];
    });
  });
