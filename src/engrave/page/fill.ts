/**
 * Which systems go on which page, and where: as few pages as can be, filled evenly, no single system
 * left over on the last one if another page can spare one. Millimetres.
 */

/** Ink-to-ink distance between systems. */
const TIGHT = 4.5;
const NATURAL = 7.5;
/** The most, where there is room: so much, or this share of a system's height, or a page would look torn apart. */
const LOOSE = 12.5;
const SHARE = 0.45;

export interface Slot {
  /** Ink above and below the system's origin. */
  readonly above: number;
  readonly below: number;
}

/** Where systems may stand on a page. */
export interface Room {
  readonly top: number;
  readonly bottom: number;
}

const height = ({ above, below }: Slot) => above + below;
const needed = (slots: readonly Slot[], gap: number) =>
  slots.reduce((sum, slot) => sum + height(slot), 0) + gap * Math.max(0, slots.length - 1);

/** How uneven a page would look: squared slack beyond natural gaps, as a part of the page. */
function pageCost(slots: readonly Slot[], { top, bottom }: Room, isLast: boolean): number {
  const room = bottom - top;
  const slack = (room - needed(slots, NATURAL)) / room;
  if (needed(slots, TIGHT) > room) return Infinity;
  if (!isLast) return slack * slack * 4;
  const lonely = slots.length === 1 ? 0.5 : slots.length === 2 ? 0.08 : 0;
  return (slack < 0 ? slack * slack * 4 : slack * slack) + lonely;
}

/** Numbers of systems page by page; a system taller than a page gets one to itself. */
export function paginate(slots: readonly Slot[], room: (page: number) => Room): number[] {
  interface Best {
    readonly cost: number;
    readonly pages: readonly number[];
  }
  const best: (Best | undefined)[] = [{ cost: 0, pages: [] }];
  for (let end = 1; end <= slots.length; end++) {
    for (let start = end - 1; start >= 0; start--) {
      const before = best[start];
      if (!before) continue;
      const one = pageCost(slots.slice(start, end), room(before.pages.length), end === slots.length);
      if (one === Infinity && end - start > 1) break;
      const cost = before.cost + (one === Infinity ? 1000 : one) + 10;
      if (!best[end] || cost < best[end]!.cost) best[end] = { cost, pages: [...before.pages, end - start] };
    }
  }
  return [...(best[slots.length]?.pages ?? [])];
}

/** How full a page is at natural gaps: 1 is full. */
export const fullness = (slots: readonly Slot[], { top, bottom }: Room): number =>
  needed(slots, NATURAL) / (bottom - top);

export interface Spread {
  /** Each system's origin. */
  readonly ys: readonly number[];
  /** Between systems. */
  readonly gap: number;
}

/** The widest gap between systems of these heights. */
const widest = (slots: readonly Slot[]): number =>
  Math.max(LOOSE, (SHARE * needed(slots, 0)) / Math.max(1, slots.length));

/**
 * Origins of a page's systems; gaps stretch to fill the page, as far as systems still read as following each other. On
 * the last page they are at most as wide as on the one before.
 */
export function spreadSystems(
  slots: readonly Slot[],
  { top, bottom }: Room,
  isLast: boolean,
  gapBefore = Infinity,
): Spread {
  const free = bottom - top - needed(slots, 0);
  const even = slots.length > 1 ? free / (slots.length - 1) : LOOSE;
  const gap = Math.min(even, widest(slots), isLast ? gapBefore : Infinity);
  let y = top;
  const ys = slots.map(slot => {
    const origin = y + slot.above;
    y = origin + slot.below + gap;
    return origin;
  });
  return { ys, gap };
}
