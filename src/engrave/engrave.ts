/**
 * From a tune and its fingering to pages. The way of the data, each stage a pure function:
 *
 *   notate   the rules of notation: heights, accidentals, beams, stems          (content/)
 *   columns  everything that stands together at one moment, measured            (measure/)
 *   break    systems, for the whole tune at once                                (system/break)
 *   draw     each system justified and drawn, in staff spaces                   (system/)
 *   compose  systems on pages, in millimetres                                   (page/)
 *
 * Every kind of sheet is measured and broken as if it showed everything, so that all break alike.
 */
import type { Arrangement } from '../fingering/arrangement.ts';
import type { Diagnostic } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import { notate } from './content/notation.ts';
import { undrawn } from './content/undrawn.ts';
import { columns } from './measure/columns.ts';
import { type PageFrame, pageFrame, SHEETS, type SheetOptions } from './options.ts';
import { type Composition, composePages, roomOn } from './page/compose.ts';
import { fullness, paginate, type Slot } from './page/fill.ts';
import type { Page } from './page.ts';
import { breakQuality, breakSystems, type Line, type Measured, overfull } from './system/break.ts';
import { type DrawnSystem, drawSystem } from './system/system.ts';

export type { SheetName, SheetOptions } from './options.ts';
export type { Group, Page } from './page.ts';

export interface Engraving {
  readonly pages: readonly Page[];
  readonly diagnostics: readonly Diagnostic[];
}

/** A way to set a tune: how dense its systems are, and the scale of the staff. */
interface Setting {
  readonly density: number;
  readonly scale: number;
}

const ORDINARY: Setting = { density: 1, scale: 1 };
/** Tried, in order, where they save a last page that would be nearly empty. */
const TIGHTER: readonly Setting[] = [
  { density: 0.88, scale: 1 },
  { density: 0.92, scale: 0.9375 },
  { density: 0.8, scale: 0.9375 },
];
/** Tried where the pages hold more than there is: learners read more easily. */
const LOOSER: readonly Setting[] = [
  { density: 1.15, scale: 1 },
  { density: 1.35, scale: 1 },
  { density: 1.6, scale: 1 },
];

/** Tried where systems break in the middle of phrases, or are very unlike each other. */
const SMALLER: readonly Setting[] = [
  { density: 1, scale: 0.9375 },
  { density: 1.6, scale: 0.9375 },
];

/** A last page emptier than this is worth saving. */
const NEARLY_EMPTY = 0.45;
/** Pages emptier than this, all together, are worth filling, … */
const ROOMY = 0.8;
/** … up to so much. */
const COMFORTABLE = 0.96;
/** Breaks whose quality is below this are awkward. */
const AWKWARD = 0.15;
/** What the full size of the staff is worth beside good breaks. */
const SMALL = 0.1;
/** What a full page is worth beside breaks at the ends of phrases. */
const FILLED = 0.5;

interface Layout {
  readonly composition: Composition;
  readonly lines: readonly Line[];
  readonly reference: readonly DrawnSystem[];
  readonly slots: readonly Slot[];
  readonly pages: readonly number[];
}

type Draw = (line: Line) => DrawnSystem;

/** Draws systems with all that a sheet may hold, each but once: ways of setting a tune have many in common. */
function drawOnce(measured: Measured, options: SheetOptions): Draw {
  const drawn = new Map<string, DrawnSystem>();
  return line => {
    const key = `${line.first}-${line.last}-${line.stretch}`;
    const system = drawn.get(key) ?? drawSystem(measured, line, options, SHEETS.tab);
    drawn.set(key, system);
    return system;
  };
}

function layOut(
  measured: Measured,
  options: SheetOptions,
  frame: PageFrame,
  density: number,
  draw: Draw,
): Layout {
  const { tune, arrangement, origins } = measured.notation;
  const width = (frame.width - 2 * frame.margin) / frame.space;
  const lines = breakSystems(measured, { width, density, options });
  const excess = Math.max(...lines.map(line => overfull(line, width)));
  // A measure too full for the paper makes the staff smaller.
  if (excess > 1)
    return layOut(measured, options, { ...frame, space: frame.space / (excess + 0.01) }, density, draw);
  const reference = lines.map(draw);
  const slots = reference.map(({ top, bottom }) => ({
    above: -top * frame.space,
    below: bottom * frame.space,
  }));
  const composition = { tune, arrangement, origins, options, frame };
  const pages = paginate(slots, page => roomOn(composition, page));
  return { composition, lines, reference, slots, pages };
}

/** How full the last page is. */
const lastFullness = ({ slots, pages, composition }: Layout): number =>
  fullness(slots.slice(slots.length - (pages.at(-1) ?? 0)), roomOn(composition, pages.length - 1));

/** How full the pages are, all together. */
const wholeFullness = ({ slots, pages, composition }: Layout): number =>
  pages.reduce((sum, count, page) => {
    const from = pages.slice(0, page).reduce((before, each) => before + each, 0);
    return sum + fullness(slots.slice(from, from + count), roomOn(composition, page));
  }, 0) / pages.length;

/**
 * The ordinary setting, unless a tighter one saves a nearly empty page, or another one on as many pages
 * fills them better or breaks at the ends of phrases.
 */
function chooseLayout(measured: Measured, options: SheetOptions): Layout {
  const frame = pageFrame(options);
  const draw = drawOnce(measured, options);
  const set = ({ density, scale }: Setting) =>
    layOut(measured, options, { ...frame, space: frame.space * scale }, density, draw);
  const ordinary = set(ORDINARY);
  if (options.measuresPerSystem !== undefined) return ordinary;
  const count = ordinary.pages.length;
  const mayScale = ({ scale }: Setting) => scale === 1 || options.staffSize === undefined;
  if (count > 1 && lastFullness(ordinary) < NEARLY_EMPTY) {
    const saved = firstOf(TIGHTER.filter(mayScale), set, next => next.pages.length < count);
    if (saved) return saved;
  }
  const worth = (layout: Layout) =>
    breakQuality(measured, layout.lines) +
    FILLED * wholeFullness(layout) -
    (layout.composition.frame.space < frame.space ? SMALL : 0);
  const bestOf = (from: Layout, settings: readonly Setting[]) =>
    settings
      .map(set)
      .filter(({ pages }) => pages.length === count)
      .filter(next => wholeFullness(next) < COMFORTABLE)
      .reduce((best, next) => (worth(next) > worth(best) ? next : best), from);
  const best = wholeFullness(ordinary) < ROOMY ? bestOf(ordinary, LOOSER) : ordinary;
  const awkward = breakQuality(measured, best.lines) < AWKWARD;
  return awkward ? bestOf(best, SMALLER.filter(mayScale)) : best;
}

function firstOf(
  settings: readonly Setting[],
  set: (setting: Setting) => Layout,
  test: (layout: Layout) => boolean,
): Layout | undefined {
  for (const setting of settings) {
    const layout = set(setting);
    if (test(layout)) return layout;
  }
  return undefined;
}

/**
 * Engraves a tune for one instrument as one kind of sheet.
 *
 * @returns pages in millimetres, and a warning for each kind of notation that is not drawn.
 */
export function engrave(tune: Tune, arrangement: Arrangement, options: SheetOptions): Engraving {
  const notation = notate(tune, arrangement, options);
  const measured: Measured = {
    notation,
    columns: notation.tune.measures.map(measure => columns(notation, measure)),
  };
  const { composition, lines, reference, slots, pages } = chooseLayout(measured, options);
  const kind = SHEETS[options.sheet];
  const systems =
    kind === SHEETS.tab ? reference : lines.map(line => drawSystem(measured, line, options, kind));
  const composed = composePages(composition, systems, slots, pages);
  return { pages: composed, diagnostics: undrawn(notation) };
}
