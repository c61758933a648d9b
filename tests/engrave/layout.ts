/** Reads pages of marks back as a critic would: what overlaps, what is off its place, what leaves the paper. */
import type { Box } from '../../src/engrave/drawing/box.ts';
import { pointAt } from '../../src/engrave/drawing/curve.ts';
import { bounds, type Mark } from '../../src/engrave/drawing/mark.ts';
import type { Role } from '../../src/engrave/drawing/role.ts';
import type { Page } from '../../src/engrave/engrave.ts';

export interface Inked {
  readonly mark: Mark;
  readonly box: Box;
  /** The group's id: "measure-3". */
  readonly group: string;
  readonly page: number;
}

export const inked = (pages: readonly Page[]): Inked[] =>
  pages.flatMap(page =>
    page.groups.flatMap(group =>
      group.marks.map(mark => ({ mark, box: bounds(mark), group: group.id, page: page.number })),
    ),
  );

/** Signs and words that nothing may run into but what they belong to. */
const SIGNS: ReadonlySet<Role> = new Set<Role>([
  'accidental',
  'dot',
  'rest',
  'articulation',
  'fermata',
  'clef',
  'key',
  'time',
  'head',
  'grace',
]);
const WORDS: ReadonlySet<Role> = new Set<Role>([
  'chord',
  'lyric',
  'digit',
  'finger',
  'position',
  'sign',
  'words',
  'letter',
  'number',
  'heading',
]);
/** Strokes that may meet heads, but not words and figures, which could then not be read. */
const STROKES: ReadonlySet<Role> = new Set<Role>([
  'stem',
  'flag',
  'beam',
  'ending',
  'tuplet',
  'slur',
  'tie',
  'ledger',
  'staff',
  'tab-curve',
]);

const overlaps = (a: Box, b: Box, slack: number) =>
  a.left + slack < b.right &&
  b.left + slack < a.right &&
  a.top + slack < b.bottom &&
  b.top + slack < a.bottom;

/** Heads of one chord may touch, and stand a stem's width short of side by side. */
function chordHeads(a: Inked, b: Inked): boolean {
  const apart = Math.abs(a.box.left - b.box.left) / (a.box.right - a.box.left);
  return apart < 0.05 || apart > 0.85;
}

/** Marks that belong together may touch: heads of one chord, pieces of one word, one bracketed accidental. */
function together(a: Inked, b: Inked): boolean {
  if (a.mark.role !== b.mark.role) return false;
  if (a.mark.role === 'head' || a.mark.role === 'grace') return chordHeads(a, b);
  return a.mark.of === undefined ? a.mark.role !== 'lyric' : a.mark.of === b.mark.of;
}

/** Whether two marks have to keep clear of each other. */
function strangers(a: Inked, b: Inked): boolean {
  const [first, second] = [a.mark.role, b.mark.role];
  if (STROKES.has(first)) return WORDS.has(second);
  if (STROKES.has(second)) return WORDS.has(first);
  return !together(a, b);
}

/** Boxes of a mark: of a curve, many small ones along it. */
function pieces(each: Inked): Inked[] {
  const { mark } = each;
  if (mark.kind !== 'curve') return [each];
  return Array.from({ length: 80 }, (_, i) => {
    const [x1, y1] = pointAt(mark.points, i / 80);
    const [x2, y2] = pointAt(mark.points, (i + 1) / 80);
    const box = {
      left: Math.min(x1, x2),
      right: Math.max(x1, x2),
      top: Math.min(y1, y2),
      bottom: Math.max(y1, y2),
    };
    return { ...each, box };
  });
}

const watched = ({ mark }: Inked) => SIGNS.has(mark.role) || WORDS.has(mark.role) || STROKES.has(mark.role);

const name = ({ mark, group }: Inked) =>
  `${mark.role}${mark.kind === 'text' ? ` "${mark.text}"` : mark.kind === 'glyph' ? ` ${mark.name}` : ''} in ${group}`;

/** Pairs of marks that overlap and must not; `slack` in mm forgives touching. */
export function collisions(pages: readonly Page[], slack: number): string[] {
  const found = new Set<string>();
  for (const page of pages) {
    const marks = inked([page]).filter(watched).flatMap(pieces);
    marks.sort((a, b) => a.box.left - b.box.left);
    marks.forEach((a, i) => {
      for (let j = i + 1; j < marks.length && marks[j]!.box.left < a.box.right - slack; j++) {
        const b = marks[j]!;
        if (overlaps(a.box, b.box, slack) && strangers(a, b)) found.add(`${name(a)} meets ${name(b)}`);
      }
    });
  }
  return [...found];
}

/** Middle of a box from left to right. */
export const centre = ({ left, right }: Box): number => (left + right) / 2;

/** Marks whose ink leaves the page's margins. */
export function outside(pages: readonly Page[], margin: number): string[] {
  return pages.flatMap(page =>
    inked([page])
      .filter(
        ({ box }) =>
          box.left < margin - 0.2 ||
          box.right > page.width - margin + 0.2 ||
          box.top < margin - 0.2 ||
          box.bottom > page.height - margin + 0.2,
      )
      .map(name),
  );
}

/** The measures of each system, page by page: what must be alike on all kinds of sheet. */
export const breaks = (pages: readonly Page[]): string[][] =>
  pages.map(({ groups }) => {
    const systems: string[] = [];
    for (const { id, className } of groups) {
      if (className === 'system') systems.push('');
      else if (className === 'measure') systems[systems.length - 1] += ` ${id.replace('measure-', '')}`;
    }
    return systems;
  });
