/** Measures one note: heads, accidentals, dots, ledger lines, and the stem and flag of a note without beam. */
import type { NoteEvent } from '../../score/model/event.ts';
import { flagCount } from '../content/beams.ts';
import { heights, type Notation } from '../content/notation.ts';
import type { StemDirection } from '../content/stems.ts';
import type { Mark } from '../drawing/mark.ts';
import { type GlyphName, glyph, glyphWidth } from '../font/glyph.ts';
import { STYLE } from '../style.ts';
import { accidentalMarks } from './accidental-marks.ts';
import type { NoteShape } from './column.ts';
import { fingersBeside } from './finger-marks.ts';

/** The head of an undotted value. */
export const headGlyph = (base: number): GlyphName =>
  base < 1 ? 'headBreve' : base === 1 ? 'headWhole' : base === 2 ? 'headHalf' : 'headBlack';

const FLAGS: readonly (readonly [GlyphName, GlyphName])[] = [
  ['flag8', 'flag8Down'],
  ['flag16', 'flag16Down'],
  ['flag32', 'flag32Down'],
  ['flag64', 'flag64Down'],
  ['flag128', 'flag128Down'],
];

/** Flags from the third on reach beyond an ordinary stem. */
const FLAG_REACH = [0, 0, 0, 0.58, 1.28, 2.04];
/** From one flag to the next where the font has no sign for so many. */
const FLAG_STEP = 0.75;
/** How many flags there are beyond those of the font's last sign. */
const furtherFlags = (flags: number): number => Math.max(0, flags - FLAGS.length);

interface HeadPlace {
  readonly id: number;
  readonly height: number;
  readonly x: number;
}

/** Seconds in a chord: every other head goes to the far side of the stem. */
function headPlaces(
  event: NoteEvent,
  ys: readonly number[],
  stem: StemDirection,
  width: number,
): HeadPlace[] {
  const order = event.heads.map((head, i) => ({ id: head.id, height: ys[i]! }));
  if (stem === 'down') order.reverse();
  const places: HeadPlace[] = [];
  for (const { id, height } of order) {
    const last = places.at(-1);
    const close = last !== undefined && Math.abs(height - last.height) < 0.75;
    const displaced = close && last.x === 0;
    places.push({ id, height, x: displaced ? (stem === 'up' ? width - STYLE.stem : STYLE.stem - width) : 0 });
  }
  return places;
}

function ledgerLines(places: readonly HeadPlace[], width: number, size: number): Mark[] {
  const lines = new Map<number, [number, number]>();
  for (const { height, x } of places) {
    const ends = (y: number) => {
      const beyond = STYLE.ledgerBeyond * size;
      const [left, right] = lines.get(y) ?? [Infinity, -Infinity];
      lines.set(y, [Math.min(left, x - beyond), Math.max(right, x + width + beyond)]);
    };
    for (let y = -1; y >= height; y--) ends(y);
    for (let y = 5; y <= height; y++) ends(y);
  }
  return [...lines].map(([y, [x1, x2]]) => ({
    kind: 'line' as const,
    role: 'ledger' as const,
    x1,
    y1: y,
    x2,
    y2: y,
    thickness: STYLE.ledgerLine * (size < 1 ? 0.8 : 1),
  }));
}

/** Dots stand in spaces: beside a head on a line, in the space above it, or below where that is taken. */
export function dotMarks(
  ys: readonly number[],
  dots: number,
  x: number,
  of: number | undefined,
  size = 1,
): Mark[] {
  const taken = new Set<number>();
  for (const y of [...ys].sort((a, b) => a - b)) {
    const home = Number.isInteger(y) ? y - 0.5 : y;
    taken.add(taken.has(home) ? home + 1 : home);
  }
  return [...taken].flatMap(y =>
    Array.from({ length: dots }, (_, i) => ({
      kind: 'glyph' as const,
      role: 'dot' as const,
      name: 'dot' as const,
      x: x + i * 0.65 * size,
      y,
      size: size,
      of,
    })),
  );
}

interface Stem {
  readonly x: number;
  readonly foot: number;
  readonly tip: number;
}

/** The stem by itself: an octave long, longer for many flags, to the middle line from ledger lines. */
function stemOf(
  ys: readonly number[],
  direction: StemDirection,
  name: GlyphName,
  flags: number,
  size: number,
): Stem {
  const { leftmost, rightmost } = glyph(name);
  const width = glyphWidth(name, size);
  const high = Math.min(...ys);
  const low = Math.max(...ys);
  const further = furtherFlags(flags);
  const length = (STYLE.stemLength + FLAG_REACH[flags - further]! + FLAG_STEP * further) * size;
  if (direction === 'up') {
    const tip = size < 1 ? high - length : Math.min(high - length, 2);
    return { x: width - STYLE.stem / 2, foot: low + rightmost * size, tip };
  }
  return { x: STYLE.stem / 2, foot: high + leftmost * size, tip: Math.max(low + length, 2) };
}

/** The flags of a stem: single ones at its tip where there are more than the font has a sign for. */
function flagMarks(flags: number, direction: StemDirection, stem: Stem, size: number, of: number): Mark[] {
  const further = furtherFlags(flags);
  const step = (direction === 'up' ? FLAG_STEP : -FLAG_STEP) * size;
  return Array.from({ length: further + 1 }, (_, i): Mark => {
    const name = FLAGS[i < further ? 0 : flags - further - 1]![direction === 'up' ? 0 : 1];
    return {
      kind: 'glyph',
      role: 'flag',
      name,
      x: stem.x - STYLE.stem / 2,
      y: stem.tip + i * step,
      size,
      of,
    };
  });
}

const slash = (stem: Stem): Mark => ({
  kind: 'line',
  role: 'grace',
  x1: stem.x - 0.65,
  y1: stem.tip + 1.35,
  x2: stem.x + 0.75,
  y2: stem.tip + 0.35,
  thickness: 0.1,
});

/** Where the dots start: right of the heads, and of a flag that hangs down to their height. */
function dotsFrom(places: readonly HeadPlace[], width: number, isFlagged: boolean, up: boolean): number {
  const right = Math.max(...places.map(each => each.x)) + width;
  const top = Math.min(...places.map(each => each.height));
  const raised = Number.isInteger(top);
  return right + STYLE.dotGap * 0.75 + (isFlagged && up && raised ? 0.75 : 0);
}

/** Measures a note, grace notes included (size below 1); marks lie around x = 0, before `dx`. */
export function noteShape(notation: Notation, event: NoteEvent, size = 1): NoteShape {
  const ys = heights(notation, event);
  const { base, dots } = event.value;
  const name = headGlyph(base);
  const width = glyphWidth(name, size);
  const direction = event.grace ? 'up' : (notation.directions.get(event.id) ?? 'down');
  const beamed = notation.beams.has(event.id);
  const flags = flagCount(base);
  const stem = base >= 2 ? stemOf(ys, direction, name, beamed ? 0 : flags, size) : undefined;
  const places = headPlaces(event, ys, direction, width);
  const of = event.id;
  const marks: Mark[] = places.map(({ id, height, x }) => ({
    kind: 'glyph',
    role: event.grace ? 'grace' : 'head',
    name,
    x,
    y: height,
    size,
    of: id,
  }));
  marks.push(...ledgerLines(places, width, size), ...accidentalMarks(notation, event, places, size));
  const flagged = stem && !beamed && flags > 0 ? flagMarks(flags, direction, stem, size, of) : [];
  if (stem && !beamed)
    marks.push({
      kind: 'line',
      role: 'stem',
      x1: stem.x,
      y1: stem.foot,
      x2: stem.x,
      y2: stem.tip,
      thickness: STYLE.stem * (size < 1 ? 0.8 : 1),
      of,
    });
  marks.push(...flagged);
  if (stem && event.grace === 'slashed' && !beamed) marks.push(slash(stem));
  if (dots > 0)
    marks.push(
      ...dotMarks(ys, dots, dotsFrom(places, width, flagged.length > 0, direction === 'up'), of, size),
    );
  marks.push(...fingersBeside(notation, places, marks));
  return {
    event,
    heights: ys,
    dx: 0,
    size,
    headWidth: width,
    stem: stem && direction,
    stemX: stem?.x ?? width / 2,
    stemFoot: stem?.foot ?? ys[0]!,
    stemTip: stem?.tip ?? Math.min(...ys),
    beamed,
    marks,
  };
}
