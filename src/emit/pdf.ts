/**
 * Pages as one PDF: vector outlines, text in embedded subsets of its fonts, bookmarks. Lengths are
 * millimetres below the one scale to points at the head of each page. The same pages give the same
 * bytes: no date is written, and the file's id is made from title and keywords.
 */
import PDFDocument from 'pdfkit';
import type { Page } from '../engrave/page.ts';
import { bookmarksOf } from './pdf/bookmarks.ts';
import { type Canvas, canvasOn, type Document } from './pdf/canvas.ts';
import { drawMark } from './pdf/marks.ts';
import type { Fonts } from './type/fonts.ts';

/** PDF's unit is 1/72 inch. */
const POINTS_PER_MM = 72 / 25.4;

/** Writes the pages of a sheet, at least one, as a PDF file. */
export async function pagesToPdf(pages: readonly Page[], fonts: Fonts): Promise<Uint8Array> {
  const document = emptyDocument(pages[0]!);
  const bytes = bytesOf(document);
  const canvas = canvasOn(document, fonts);
  const bookmark = bookmarksOf(document, POINTS_PER_MM);
  for (const page of pages) {
    addPage(canvas, page);
    bookmark(page);
  }
  document.end();
  return bytes;
}

function emptyDocument({ title, author, keywords }: Page): Document {
  const document = new PDFDocument({
    autoFirstPage: false,
    // None to begin with: the default one is read from a file beside pdfkit.
    font: '',
    displayTitle: true,
    info: {
      Title: title,
      ...(author ? { Author: author } : {}),
      Subject: keywords.join('; '),
      Keywords: keywords.join(', '),
      Creator: 'fretward',
      CreationDate: new Date(0),
    },
  });
  // The file's id is made from a date, but none is written: only what can be enumerated is.
  Object.defineProperty(document.info, 'CreationDate', { enumerable: false });
  // Bookmarks are there for who looks for them; the list does not open by itself.
  const { _root } = document as unknown as { _root: { data: Record<string, unknown> } };
  _root.data.PageMode = 'UseNone';
  return document;
}

function addPage(canvas: Canvas, page: Page): void {
  const { document } = canvas;
  document.addPage({ size: [page.width * POINTS_PER_MM, page.height * POINTS_PER_MM], margin: 0 });
  document.scale(POINTS_PER_MM).lineJoin('round');
  for (const { marks } of page.groups) for (const mark of marks) drawMark(canvas, mark);
}

/** Everything that the document will have written when it has ended. */
const bytesOf = (document: Document): Promise<Uint8Array> =>
  new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    document.on('end', () => resolve(Buffer.concat(chunks)));
    document.on('error', reject);
  });
