/** Each drawing primitive in PDF: one table, one row a kind. */
import { arcs, type CurveMark } from '../../engrave/drawing/curve.ts';
import type { GlyphMark } from '../../engrave/drawing/glyph.ts';
import { INKS } from '../../engrave/drawing/ink.ts';
import type { LineMark } from '../../engrave/drawing/line.ts';
import type { Mark } from '../../engrave/drawing/mark.ts';
import type { PolygonMark } from '../../engrave/drawing/polygon.ts';
import type { TextMark } from '../../engrave/drawing/text.ts';
import { emptyBoxes } from '../type/box.ts';
import { setText } from '../type/runs.ts';
import { type Canvas, useFont, useGlyph } from './canvas.ts';

function drawGlyph(canvas: Canvas, { name, x, y, size, ink }: GlyphMark): void {
  const form = useGlyph(canvas, name);
  if (ink) canvas.document.fillColor(INKS[ink]);
  canvas.document.save().transform(size, 0, 0, size, x, y).addContent(`${form} Do`).restore();
  if (ink) canvas.document.fillColor('#000');
}

function drawLine({ document }: Canvas, { x1, y1, x2, y2, thickness, dash }: LineMark): void {
  if (dash) document.dash(dash[0], { space: dash[1] });
  document.lineWidth(thickness).moveTo(x1, y1).lineTo(x2, y2).stroke();
  if (dash) document.undash();
}

function drawPolygon({ document }: Canvas, { points, ink }: PolygonMark): void {
  const [first, ...rest] = points;
  if (!first) return;
  document.moveTo(...first);
  for (const point of rest) document.lineTo(...point);
  document.closePath();
  if (ink) document.fill(INKS[ink]).fillColor('#000');
  else document.fill();
}

/** Filled, with a rounded outline that blunts the ends. */
function drawCurve({ document }: Canvas, mark: CurveMark): void {
  const [start, , , end] = mark.points;
  const { there, back } = arcs(mark);
  document
    .moveTo(...start)
    .bezierCurveTo(...there[0], ...there[1], ...end)
    .bezierCurveTo(...back[0], ...back[1], ...start)
    .closePath()
    .lineWidth(mark.ends)
    .fillAndStroke();
}

function drawText(canvas: Canvas, mark: TextMark): void {
  const { document } = canvas;
  if (mark.ink) document.fillColor(INKS[mark.ink]);
  for (const run of setText(mark, canvas.fonts)) {
    if (!run.font) {
      for (const { x, y, width, height, thickness } of emptyBoxes(run, mark))
        document.lineWidth(thickness).rect(x, y, width, height).stroke();
      continue;
    }
    useFont(canvas, run.font, mark.size);
    const narrowed = run.narrowing === 1 ? {} : { horizontalScaling: run.narrowing * 100 };
    document.text(run.text, run.x, mark.y, {
      lineBreak: false,
      baseline: 'alphabetic',
      // Asked for, though none: the run is then shaped whole, not word by word.
      features: [],
      ...narrowed,
    });
  }
  if (mark.ink) document.fillColor('#000');
}

const DRAWERS: {
  readonly [K in Mark['kind']]: (canvas: Canvas, mark: Extract<Mark, { kind: K }>) => void;
} = {
  glyph: drawGlyph,
  line: drawLine,
  polygon: drawPolygon,
  curve: drawCurve,
  text: drawText,
};

export const drawMark = (canvas: Canvas, mark: Mark): void =>
  (DRAWERS[mark.kind] as (canvas: Canvas, mark: Mark) => void)(canvas, mark);
