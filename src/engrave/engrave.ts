/**
 * From a tune and its fingering to pages. The way of the data, each stage a pure function:
 *
 *   notate   the rules of notation: heights, accidentals, beams, stems          (content/)
 *   columns  everything that stands together at one moment, measured            (measure/)
 *   break    systems, for the whole tune at once                                (system/break)
 *   layout   how dense, on how many pages                                      (layout)
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
import { chooseLayout, type Layout } from './layout.ts';
import { columns } from './measure/columns.ts';
import { SHEETS, type SheetOptions } from './options.ts';
import { composePages } from './page/compose.ts';
import type { Page } from './page.ts';
import type { Measured } from './system/possible.ts';
import { drawSystem } from './system/system.ts';

export type { SheetName, SheetOptions } from './options.ts';
export type { Group, Page } from './page.ts';

/** A sheet, page by page, and what it could not show. */
export interface Engraving {
  readonly pages: readonly Page[];
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Engraves a tune for one instrument as one kind of sheet.
 *
 * @returns pages in millimetres, and a warning for each kind of notation that is not drawn.
 */
export function engrave(tune: Tune, arrangement: Arrangement, options: SheetOptions): Engraving {
  const { measured, layout } = laidOut(tune, arrangement, options);
  const { composition, lines, reference, slots, pages } = layout;
  const kind = SHEETS[options.sheet];
  const systems =
    kind === SHEETS.tab ? reference : lines.map(line => drawSystem(measured, line, options, kind));
  const composed = composePages({ ...composition, options }, systems, slots, pages);
  return { pages: composed, diagnostics: undrawn(measured.notation) };
}

interface LaidOut {
  readonly measured: Measured;
  readonly layout: Layout;
}

/**
 * What is known of arrangements that are still in use: all kinds of sheet share their layout, and are
 * mostly asked for one after the other. The answer is the same with and without.
 */
const known = new WeakMap<
  Arrangement,
  { readonly tune: Tune; readonly asked: string; readonly laid: LaidOut }
>();

function laidOut(tune: Tune, arrangement: Arrangement, options: SheetOptions): LaidOut {
  const asked = JSON.stringify({ ...options, sheet: undefined });
  const before = known.get(arrangement);
  if (before?.tune === tune && before.asked === asked) return before.laid;
  const notation = notate(tune, arrangement, options);
  const measured: Measured = {
    notation,
    columns: notation.tune.measures.map(measure => columns(notation, measure)),
  };
  const laid = { measured, layout: chooseLayout(measured, options) };
  known.set(arrangement, { tune, asked, laid });
  return laid;
}
