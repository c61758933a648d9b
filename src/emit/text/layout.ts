/** Spacing and systems together: as roomy as the width allows without another system. */
import type { MeasureContent } from './content.ts';
import { type Spacing, spaceMeasures } from './spacing.ts';
import { type System, systemsOf } from './systems.ts';

/** Columns of a quarter note, from tight to roomy. */
const QUARTER_ROOMS = [4, 5, 6] as const;

/** The systems of a tune, `gutter` columns before each staff, within `width` columns where that can be. */
export const layOut = (
  content: readonly MeasureContent[],
  spacing: Omit<Spacing, 'quarterRoom'>,
  gutter: number,
  width: number,
): readonly System[] => {
  const layouts = QUARTER_ROOMS.map(quarterRoom =>
    systemsOf(spaceMeasures(content, { ...spacing, quarterRoom }), gutter, width),
  );
  const tightest = layouts[0]!;
  const limit = Math.max(width, widest(tightest));
  return layouts.findLast(each => each.length === tightest.length && widest(each) <= limit) ?? tightest;
};

const widest = (systems: readonly System[]): number => Math.max(0, ...systems.map(system => system.width));
