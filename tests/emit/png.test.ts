/** PNG, decoded with an independent library and compared with the PDF as another one paints it. */
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { pagesToPdf } from '../../src/emit/pdf.ts';
import { type Picture, pagesToPng } from '../../src/emit/png.ts';
import { fontsWith } from '../../src/emit/type/fonts.ts';
import type { Page } from '../../src/engrave/engrave.ts';
import { openPdf, paint } from './pdf/reading.ts';
import { CYRILLIC, EXAMPLES, example, pagesOf, repeated } from './typeset.ts';

const FONTS = fontsWith(undefined);
const MARGIN = 15;

const painted = (pages: readonly Page[], picture: Partial<Picture> = {}, fonts = FONTS) =>
  pagesToPng(pages, fonts, { dpi: 150, transparent: false, ...picture });

/** Darkness of each pixel on white paper, 0 … 255. */
function inkOf({ data, width, height }: PNG): Uint8Array {
  const ink = new Uint8Array(width * height);
  for (let i = 0; i < ink.length; i++) {
    const lightness = (data[4 * i]! + data[4 * i + 1]! + data[4 * i + 2]!) / 3;
    ink[i] = ((255 - lightness) * data[4 * i + 3]!) / 255;
  }
  return ink;
}

/** Edges of everything that is inked, in pixels. */
function inkBox(picture: PNG) {
  const ink = inkOf(picture);
  const box = { left: picture.width, top: picture.height, right: 0, bottom: 0 };
  for (let y = 0; y < picture.height; y++)
    for (let x = 0; x < picture.width; x++) {
      if (ink[y * picture.width + x]! < 32) continue;
      box.left = Math.min(box.left, x);
      box.right = Math.max(box.right, x + 1);
      box.top = Math.min(box.top, y);
      box.bottom = Math.max(box.bottom, y + 1);
    }
  return box;
}

const corners = ({ data, width, height }: PNG) =>
  [0, width - 1, width * (height - 1), width * height - 1].map(i => [...data.subarray(4 * i, 4 * i + 4)]);

/** Blurs by averaging squares, so that only what lies elsewhere counts, not how edges are smoothed. */
function blurred(ink: Uint8Array, width: number, height: number, square: number): readonly number[] {
  const means: number[] = [];
  for (let top = 0; top + square <= height; top += square)
    for (let left = 0; left + square <= width; left += square) {
      let sum = 0;
      for (let y = top; y < top + square; y++)
        for (let x = left; x < left + square; x++) sum += ink[y * width + x]!;
      means.push(sum / square ** 2);
    }
  return means;
}

describe.each(EXAMPLES)('%s as PNG', name => {
  const pages = pagesOf(example(name));

  it('looks as its PDF does to another renderer', async () => {
    const document = openPdf(await pagesToPdf(pages, FONTS));
    const pictures = await painted(pages);
    expect(pictures).toHaveLength(pages.length);
    pictures.forEach((bytes, index) => {
      const picture = PNG.sync.read(Buffer.from(bytes));
      const { width, height } = picture;
      const other = paint(document, index, width, height).grey.map(light => 255 - light);
      const ours = blurred(inkOf(picture), width, height, 10);
      const theirs = blurred(other, width, height, 10);
      expect(Math.max(...ours)).toBeGreaterThan(60);
      const differences = ours.map((mean, square) => Math.abs(mean - theirs[square]!));
      // Smoothing alone was seen to make 15; a dot or a stem that is missing makes 29 and more, a figure
      // or a head 60 and more.
      expect(Math.max(...differences)).toBeLessThan(24);
      const mean = differences.reduce((sum, each) => sum + each, 0) / differences.length;
      expect(mean).toBeLessThan(0.6);
    });
  });

  it('keeps its ink inside the margins', async () => {
    for (const bytes of await painted(pages)) {
      const picture = PNG.sync.read(Buffer.from(bytes));
      const margin = (MARGIN / 25.4) * 150;
      const { left, top, right, bottom } = inkBox(picture);
      expect(left).toBeGreaterThanOrEqual(Math.floor(margin) - 1);
      expect(top).toBeGreaterThanOrEqual(Math.floor(margin) - 1);
      expect(right).toBeLessThanOrEqual(Math.ceil(picture.width - margin) + 1);
      expect(bottom).toBeLessThanOrEqual(Math.ceil(picture.height - margin) + 1);
    }
  });
});

describe('a picture', () => {
  const pages = pagesOf(example('row-row-row-your-boat'));
  const decoded = async (picture: Partial<Picture>) =>
    PNG.sync.read(Buffer.from((await painted(pages.slice(0, 1), picture))[0]!));

  // 210 × 297 mm (ISO 216) at so many pixels in 25.4 mm.
  it.each([
    { dpi: 72, size: [595, 842] },
    { dpi: 150, size: [1240, 1754] },
    { dpi: 300, size: [2480, 3508] },
  ])('has $dpi pixels an inch, and says so', async ({ dpi, size }) => {
    const [bytes] = await painted(pages.slice(0, 1), { dpi });
    const { width, height } = PNG.sync.read(Buffer.from(bytes!), { checkCRC: true });
    expect([width, height]).toEqual(size);
    // W3C PNG, 11.3.4.3: pixels a metre both ways, unit 1.
    const at = Buffer.from(bytes!).indexOf('pHYs', 0, 'latin1');
    const chunk = Buffer.from(bytes!).subarray(at + 4, at + 13);
    expect(chunk.readUInt32BE(0) * 0.0254).toBeCloseTo(dpi, 1);
    expect(chunk.readUInt32BE(4)).toBe(chunk.readUInt32BE(0));
    expect(chunk[8]).toBe(1);
  });

  it('is on white paper', async () => {
    for (const corner of corners(await decoded({}))) expect(corner).toEqual([255, 255, 255, 255]);
  });

  it('is on nothing where that is asked for, with the same ink', async () => {
    const bare = await decoded({ transparent: true });
    for (const corner of corners(bare)) expect(corner[3]).toBe(0);
    const onPaper = inkOf(await decoded({}));
    const difference = inkOf(bare).reduce((most, ink, i) => Math.max(most, Math.abs(ink - onPaper[i]!)), 0);
    expect(difference).toBeLessThanOrEqual(2);
  });

  it('is made of each page', async () => {
    const many = pagesOf(repeated(example('row-row-row-your-boat'), 12));
    expect(many.length).toBeGreaterThan(1);
    expect(await painted(many, { dpi: 30 })).toHaveLength(many.length);
  });

  it('has the same bytes each time', async () => {
    const [first] = await painted(pages, {}, fontsWith(CYRILLIC));
    const [second] = await painted(pages, {}, fontsWith(CYRILLIC));
    expect(Buffer.compare(first!, second!)).toBe(0);
  });

  it('shows other scripts in the font given, and boxes without one', async () => {
    const cyrillic = pagesOf(example('amazing-grace', { title: 'Калинка' }));
    const [boxes] = await painted(cyrillic);
    const [letters] = await painted(cyrillic, {}, fontsWith(CYRILLIC));
    const title = (bytes: Uint8Array) => {
      const picture = PNG.sync.read(Buffer.from(bytes));
      return inkOf(picture).subarray(0, picture.width * Math.round((23 / 25.4) * 150));
    };
    const sum = (ink: Uint8Array) => ink.reduce((total, each) => total + each, 0);
    expect(sum(title(boxes!))).toBeGreaterThan(10_000);
    expect(sum(title(letters!))).toBeGreaterThan(10_000);
    expect(title(boxes!)).not.toEqual(title(letters!));
  });

  it('is not painted from coordinates that are no numbers', async () => {
    const line = { kind: 'line', role: 'bar', x1: 0, y1: 0, x2: Number.NaN, y2: 1, thickness: 1 } as const;
    const broken = { ...pages[0]!, groups: [{ id: 'x', className: 'system', marks: [line] }] } as const;
    await expect(painted([broken])).rejects.toThrow(/number/);
  });
});
