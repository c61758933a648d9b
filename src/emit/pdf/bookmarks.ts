/** The list of places to go to: every system by name, page by page where there are several. */
import { union } from '../../engrave/drawing/box.ts';
import { bounds } from '../../engrave/drawing/mark.ts';
import type { Group, Page } from '../../engrave/page.ts';
import type { Document } from './canvas.ts';

/** pdfkit's outline, with what its types leave out. Lengths in points. */
interface Outline {
  /** `left` is counted from the right edge of the page, `top` from its top. */
  addItem(title: string, options: { expanded?: boolean; left: number; top: number }): Outline;
}

/** Adds the entries of the page that is being drawn. */
export function addBookmarks(document: Document, page: Page, scale: number): void {
  const left = document.page.width;
  const root = document.outline as unknown as Outline;
  const places = page.groups.filter(group => group.label !== undefined);
  const parent = page.of > 1 ? root.addItem(`Page ${page.number}`, { expanded: true, left, top: 0 }) : root;
  for (const group of places) parent.addItem(group.label!, { left, top: topOf(group) * scale });
}

/** A little above the ink, mm. */
const topOf = ({ marks }: Group): number => Math.max(0, (union(marks.map(bounds))?.top ?? 0) - 5);
