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

/** Ways to set a tune, the best first; the others are tried where they save a nearly empty page. */
const SETTINGS = [
  { density: 1, scale: 1 },
  { density: 0.88, scale: 1 },
  { density: 0.92, scale: 0.9375 },
  { density: 0.8, scale: 0.9375 },
] as const;

/** A last page emptier than this is worth saving. */
const NEARLY_EMPTY = 0.45;

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

const lastPageIsEmpty = ({ slots, pages, composition }: Layout): boolean =>
  fullness(slots.slice(slots.length - (pages.at(-1) ?? 0)), roomOn(composition, pages.length - 1)) <
  NEARLY_EMPTY;

/** The first setting, unless a tighter one saves a last page that would be nearly empty. */
function chooseLayout(measured: Measured, options: SheetOptions): Layout {
  const frame = pageFrame(options);
  const first = layOut(measured, options, frame, SETTINGS[0].density);
  if (first.pages.length < 2 || !lastPageIsEmpty(first)) return first;
  for (const { density, scale } of SETTINGS.slice(1)) {
    if (scale < 1 && options.staffSize !== undefined) break;
    const next = layOut(measured, options, { ...frame, space: frame.space * scale }, density);
    if (next.pages.length < first.pages.length) return next;
  }
  return first;
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
