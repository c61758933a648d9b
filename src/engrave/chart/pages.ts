/**
 * Blocks of diagrams on pages, from the top down: on as few pages as can be, as far apart as there is room for on
 * these, and all of them as equally full as can be, so that none carries a row or two alone. Millimetres.
 */
import type { Group } from '../page.ts';

/** Something as high as it is, drawn at a height; and what is free after it on its page, from least to most. */
export interface Block {
  readonly height: number;
  readonly after: readonly [least: number, most: number];
  readonly draw: (y: number) => readonly Group[];
}

/** Where blocks may stand on a page (0-based). */
export type Room = (page: number) => { readonly top: number; readonly bottom: number };

interface Placed {
  readonly block: Block;
  readonly y: number;
}

/** How far blocks are drawn apart: the first with which they need no more pages than with the last. */
const STRETCHES = [1, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0] as const;

/** What is on each page. */
export function onPages(blocks: readonly Block[], room: Room): readonly (readonly Group[])[] {
  const fewest = filled(blocks, room, 0).length;
  const stretch = STRETCHES.find(each => filled(blocks, room, each).length === fewest)!;
  return balanced(blocks, room, stretch).map(page => page.flatMap(({ block, y }) => block.draw(y)));
}

/** By how much more a page is left free at its foot to fill the last one. */
const STEP = 2;

function balanced(blocks: readonly Block[], room: Room, stretch: number): readonly (readonly Placed[])[] {
  let best = filled(blocks, room, stretch);
  const fewest = best.length;
  const most = fewest > 1 ? room(1).bottom - room(1).top : 0;
  for (let free = STEP; free < most; free += STEP) {
    const less: Room = page => ({ ...room(page), bottom: room(page).bottom - free });
    const next = filled(blocks, less, stretch);
    if (next.length > fewest) break;
    best = next;
  }
  return best;
}

/** Page after page from the top, each as full as it can be. */
function filled(blocks: readonly Block[], room: Room, stretch: number): readonly (readonly Placed[])[] {
  const pages: Placed[][] = [[]];
  let y = room(0).top;
  for (const block of blocks) {
    const [least, most] = block.after;
    if (pages.at(-1)!.length > 0 && y + block.height > room(pages.length - 1).bottom) {
      pages.push([]);
      y = room(pages.length - 1).top;
    }
    pages.at(-1)!.push({ block, y });
    y += block.height + least + stretch * (most - least);
  }
  return pages;
}
