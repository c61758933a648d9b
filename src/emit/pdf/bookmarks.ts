/** The list of places to go to: sections or pages, and in them every system by name. */
import { union } from '../../engrave/drawing/box.ts';
import { bounds } from '../../engrave/drawing/mark.ts';
import type { Group, Page } from '../../engrave/page.ts';
import type { Document } from './canvas.ts';

/** pdfkit's outline, with what its types leave out. Lengths in points. */
interface Outline {
  /** `left` is counted from the right edge of the page, `top` from its top. */
  addItem(title: string, options: { expanded?: boolean; left: number; top: number }): Outline;
}

/**
 * Adds the entries of one page after the other, as they are drawn. In a document with sections, those are
 * the list, and places stand under them; otherwise pages are, where there are several.
 */
export function bookmarksOf(document: Document, scale: number): (page: Page) => void {
  let section: Outline | undefined;
  return page => {
    const left = document.page.width;
    const root = document.outline as unknown as Outline;
    const add = (title: string): Outline => root.addItem(title, { expanded: true, left, top: 0 });
    if (page.section !== undefined) section = add(page.section);
    const parent = section ?? (page.of > 1 ? add(`Page ${page.number}`) : root);
    for (const group of page.groups) {
      if (group.label !== undefined) parent.addItem(group.label, { left, top: topOf(group) * scale });
    }
  };
}

/** A little above the ink, mm. */
const topOf = ({ marks }: Group): number => Math.max(0, (union(marks.map(bounds))?.top ?? 0) - 5);
