/** Puts drawn systems on pages: from staff spaces to millimetres. */
import type { Arrangement } from '../../fingering/arrangement.ts';
import type { Tune } from '../../score/tune.ts';
import { type Mark, place } from '../drawing/mark.ts';
import { type PageFrame, SHEETS, type SheetOptions } from '../options.ts';
import type { Group, Page } from '../page.ts';
import { SYSTEM } from '../system/sketch.ts';
import type { DrawnSystem } from '../system/system.ts';
import { type Room, type Slot, spreadSystems } from './fill.ts';
import { editionLines, footer, heading, runningHead, titleOf } from './heading.ts';

/** Between the heading and the first system's ink. */
const BELOW_HEADING = 7;

export interface Composition {
  readonly tune: Tune;
  readonly arrangement: Arrangement;
  /** Each measure's index in the tune as it came, for ids that hold whatever is condensed. */
  readonly origins: readonly number[];
  readonly options: SheetOptions;
  readonly frame: PageFrame;
}

function pageFooter({ tune, options, frame }: Composition, page: number) {
  const lines = [...(page === 0 ? tune.rights : []), ...(options.footer ? [options.footer] : [])];
  return footer(lines, frame);
}

function pageHead({ tune, arrangement, options, frame }: Composition, page: number) {
  return page === 0
    ? heading(tune, arrangement, options, frame)
    : runningHead(titleOf(tune, options), page + 1, frame);
}

/** Where systems may stand on a page (0-based): the same on every kind of sheet, so that all break alike. */
export function roomOn(composition: Composition, page: number): Room {
  const fullest = { ...composition, options: { ...composition.options, sheet: 'tab' as const } };
  return {
    top: pageHead(fullest, page).bottom + BELOW_HEADING,
    bottom: pageFooter(composition, page).top,
  };
}

/** Measures by their printed numbers. */
const rangeOf = (from: string, to: string): string =>
  from === to ? `Measure ${from}` : `Measures ${from}–${to}`;

function systemGroups(
  { marks, line }: DrawnSystem,
  { tune, origins, frame: { margin, space } }: Composition,
  y: number,
  index: number,
): Group[] {
  const toPage = (list: readonly Mark[]) => list.map(mark => place(mark, space, margin, y));
  const own: Group = {
    id: `system-${index + 1}`,
    className: 'system',
    label: rangeOf(tune.measures[line.first]!.number, tune.measures[line.last]!.number),
    marks: toPage(marks.get(SYSTEM) ?? []),
  };
  const groups: Group[] = [own];
  for (let measure = line.first; measure <= line.last; measure++)
    groups.push({
      id: `measure-${origins[measure]! + 1}`,
      className: 'measure',
      marks: toPage(marks.get(measure) ?? []),
    });
  return groups;
}

/**
 * Composes the pages. `slots` are the heights that decide the systems' places, the same for every kind
 * of sheet, so that two kinds can be laid side by side.
 */
export function composePages(
  composition: Composition,
  systems: readonly DrawnSystem[],
  slots: readonly Slot[],
  pages: readonly number[],
): Page[] {
  const { tune, arrangement, options, frame } = composition;
  const title = titleOf(tune, options);
  const keywords = [...editionLines(tune, arrangement, false), SHEETS[options.sheet].label];
  let next = 0;
  let gapBefore: number | undefined;
  return pages.map((count, index) => {
    const from = next;
    next += count;
    const room = roomOn(composition, index);
    const { ys, gap } = spreadSystems(slots.slice(from, next), room, index === pages.length - 1, gapBefore);
    gapBefore = gap;
    const head = pageHead(composition, index).marks;
    const foot = pageFooter(composition, index).marks;
    return {
      number: index + 1,
      of: pages.length,
      width: frame.width,
      height: frame.height,
      title: title || 'Untitled',
      description: [...keywords, `page ${index + 1} of ${pages.length}`].join('; '),
      author: tune.composer,
      keywords,
      groups: [
        { id: `heading-${index + 1}`, className: 'heading', marks: head },
        ...ys.flatMap((y, i) => systemGroups(systems[from + i]!, composition, y, from + i)),
        ...(foot.length > 0
          ? [{ id: `footer-${index + 1}`, className: 'footer' as const, marks: foot }]
          : []),
      ],
    };
  });
}
