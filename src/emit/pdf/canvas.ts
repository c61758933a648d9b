/**
 * The PDF document being drawn on, and what it holds once for all pages: fonts by name, and glyphs as
 * form objects, which pages refer to as pages in SVG do to their definitions.
 */
import type PDFDocument from 'pdfkit';
import { type GlyphName, glyph } from '../../engrave/font/glyph.ts';
import type { Font, Fonts } from '../type/fonts.ts';
import { filledPath } from './outline.ts';

export type Document = InstanceType<typeof PDFDocument>;

export interface Canvas {
  readonly document: Document;
  readonly fonts: Fonts;
  readonly glyphs: Map<GlyphName, PDFKit.PDFKitReference>;
  readonly registered: Set<string>;
}

export const canvasOn = (document: Document, fonts: Fonts): Canvas => ({
  document,
  fonts,
  glyphs: new Map(),
  registered: new Set(),
});

/** The glyph's form object, named so that the current page knows it. */
export function useGlyph({ document, glyphs }: Canvas, name: GlyphName): string {
  let form = glyphs.get(name);
  if (!form) {
    const { path, left, top, right, bottom } = glyph(name);
    form = document.ref({ Type: 'XObject', Subtype: 'Form', BBox: [left, top, right, bottom] });
    form.end(filledPath(path));
    glyphs.set(name, form);
  }
  document.page.xobjects[name] = form;
  return `/${name}`;
}

/** Makes it the font of the text that follows. */
export function useFont({ document, registered }: Canvas, { id, bytes, member }: Font, size: number): void {
  if (!registered.has(id)) {
    document.registerFont(id, bytes() as Buffer, member);
    registered.add(id);
  }
  document.font(id, size);
}
