/** Reads a PDF back with MuPDF, a library that shares nothing with the one that writes ours. */
import * as mupdf from 'mupdf';

export interface Character {
  readonly character: string;
  /** Origin on the baseline, in mm from the upper left corner. */
  readonly x: number;
  readonly y: number;
  /** Em size in mm. */
  readonly size: number;
}

export interface Picture {
  readonly width: number;
  readonly height: number;
  /** One byte a pixel, 255 for white. */
  readonly grey: Uint8Array;
}

const MM_PER_POINT = 25.4 / 72;

export const openPdf = (bytes: Uint8Array): mupdf.PDFDocument => new mupdf.PDFDocument(bytes);

/** Width and height of a page in points. */
export function sizeOf(document: mupdf.PDFDocument, page: number): readonly [number, number] {
  const [left, top, right, bottom] = document.loadPage(page).getBounds();
  return [right - left, bottom - top];
}

/** Every character of a page but spaces, as a reader would copy it. */
export function charactersOf(document: mupdf.PDFDocument, page: number): readonly Character[] {
  const found: Character[] = [];
  document
    .loadPage(page)
    .toStructuredText('')
    .walk({
      onChar: (character, [x, y], _font, size) => {
        if (character.trim() !== '')
          found.push({ character, x: x * MM_PER_POINT, y: y * MM_PER_POINT, size: size * MM_PER_POINT });
      },
    });
  return found;
}

export interface FontFacts {
  readonly name: string;
  readonly embedded: boolean;
  readonly mapped: boolean;
}

/** The fonts that a page refers to. */
export function fontsOf(document: mupdf.PDFDocument, page: number): readonly FontFacts[] {
  const found: FontFacts[] = [];
  const fonts = document.loadPage(page).getObject().getInheritable('Resources').get('Font');
  fonts.forEach(font => {
    const descriptor = font.get('DescendantFonts', 0, 'FontDescriptor');
    const files = ['FontFile2', 'FontFile3'].map(key => descriptor.get(key));
    found.push({
      name: font.get('BaseFont').asName(),
      embedded: files.some(file => file.isStream() && file.readStream().asUint8Array().length > 100),
      mapped: font.get('ToUnicode').isStream(),
    });
  });
  return found;
}

/** Paints a page, so many pixels wide and high. */
export function paint(document: mupdf.PDFDocument, page: number, width: number, height: number): Picture {
  const [points, high] = sizeOf(document, page);
  const pixmap = document
    .loadPage(page)
    .toPixmap(mupdf.Matrix.scale(width / points, height / high), mupdf.ColorSpace.DeviceGray, false);
  const stride = pixmap.getStride();
  const pixels = pixmap.getPixels();
  const grey = new Uint8Array(width * height);
  for (let y = 0; y < height; y++) grey.set(pixels.subarray(y * stride, y * stride + width), y * width);
  return { width, height, grey };
}
