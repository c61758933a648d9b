/**
 * A page as SVG 1.1: self-contained, in millimetres. Glyph outlines are defined once and used; text
 * stays text, in subsets of the text faces that the page carries with it. There is no music in here.
 */
import type { Mark } from '../engrave/drawing/mark.ts';
import type { Group, Page } from '../engrave/page.ts';
import { fontFaces } from './svg/font-faces.ts';
import { type Defined, marksToSvg } from './svg/marks.ts';
import { element, number, text } from './svg/writer.ts';

function groupToSvg({ id, className, marks }: Group, defined: Defined): string {
  return element('g', { id, class: className }, marksToSvg(marks, defined));
}

const texts = (marks: readonly Mark[]) => marks.flatMap(mark => (mark.kind === 'text' ? [mark] : []));

/** Writes one page as a complete SVG document. */
export function pageToSvg(page: Page): string {
  const { width, height, groups } = page;
  const defined: Defined = new Map();
  const body = groups.map(group => groupToSvg(group, defined)).join('\n');
  const fonts = fontFaces(groups.flatMap(group => texts(group.marks)));
  const style = `${fonts}text{white-space:pre;font-kerning:none;font-variant-ligatures:none}`;
  const size = { width: `${number(width)}mm`, height: `${number(height)}mm` };
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" width="${size.width}" height="${size.height}" viewBox="0 0 ${number(width)} ${number(height)}">`,
    element('title', {}, text(page.of > 1 ? `${page.title}, page ${page.number}` : page.title)),
    element('desc', {}, text(page.description)),
    element('style', {}, style),
    element('defs', {}, [...defined.values()].join('')),
    element('rect', { width, height, fill: '#fff' }),
    body,
    '</svg>\n',
  ].join('\n');
}
