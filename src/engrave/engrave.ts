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
import { breakSystems, type Line, type Measured, overfull } from './system/break.ts';
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
/** Tried, in order, where a single page would stay half empty: learners read more easily. */
const LOOSER: readonly Setting[] = [
  { density: 1.6, scale: 1 },
  { density: 1.35, scale: 1 },
  { density: 1.15, scale: 1 },
];

/** A last page emptier than this is worth saving, a single one worth spreading. */
const NEARLY_EMPTY = 0.45;
const HALF_EMPTY = 0.6;
/** A page that has been spread out is at most this full. */
const COMFORTABLE = 0.9;

interface Layout {
  readonly composition: Composition;
  readonly lines: readonly Line[];
  readonly reference: readonly DrawnSystem[];
  readonly slots: readonly Slot[];
  readonly pages: readonly number[];
}

function layOut(measured: Measured, options: SheetOptions, frame: PageFrame, density: number): Layout {
  const { tune, arrangement, origins } = measured.notation;
  const width = (frame.width - 2 * frame.margin) / frame.space;
  const lines = breakSystems(measured, { width, density, options });
  const excess = Math.max(...lines.map(line => overfull(line, width)));
  // A measure too full for the paper makes the staff smaller.
  if (excess > 1)
    return layOut(measured, options, { ...frame, space: frame.space / (excess + 0.01) }, density);
  const reference = lines.map(line => drawSystem(measured, line, options, SHEETS.tab));
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

/** The ordinary setting, unless a tighter one saves a nearly empty page or a looser one fills a single one. */
function chooseLayout(measured: Measured, options: SheetOptions): Layout {
  const frame = pageFrame(options);
  const set = ({ density, scale }: Setting) =>
    layOut(measured, options, { ...frame, space: frame.space * scale }, density);
  const ordinary = set(ORDINARY);
  const full = lastFullness(ordinary);
  if (options.measuresPerSystem !== undefined) return ordinary;
  if (ordinary.pages.length > 1 && full < NEARLY_EMPTY) {
    const allowed = TIGHTER.filter(({ scale }) => scale === 1 || options.staffSize === undefined);
    return firstOf(allowed, set, next => next.pages.length < ordinary.pages.length) ?? ordinary;
  }
  if (ordinary.pages.length === 1 && full < HALF_EMPTY)
    return (
      firstOf(LOOSER, set, next => next.pages.length === 1 && lastFullness(next) < COMFORTABLE) ?? ordinary
    );
  return ordinary;
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
