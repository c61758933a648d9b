/** Each drawing primitive as SVG: one table, one row a kind. */
import { arcs, type CurveMark } from '../../engrave/drawing/curve.ts';
import type { GlyphMark } from '../../engrave/drawing/glyph.ts';
import { INKS, type Ink } from '../../engrave/drawing/ink.ts';
import type { LineMark } from '../../engrave/drawing/line.ts';
import type { Mark } from '../../engrave/drawing/mark.ts';
import type { PolygonMark } from '../../engrave/drawing/polygon.ts';
import type { TextMark } from '../../engrave/drawing/text.ts';
import { face } from '../../engrave/font/face.ts';
import { glyph } from '../../engrave/font/glyph.ts';
import { element, number, numbers, text } from './writer.ts';

/** Definitions that the page refers to, by id. */
export type Defined = Map<string, string>;

const fillOf = (ink: Ink | undefined) => (ink ? INKS[ink] : undefined);

function glyphToSvg({ name, x, y, size, ink }: GlyphMark, defined: Defined): string {
  const id = `${name}-${number(size).replace(/^\./, '0.')}`;
  if (!defined.has(id))
    defined.set(id, element('path', { id, transform: `scale(${number(size)})`, d: glyph(name).path }));
  return element('use', { href: `#${id}`, x, y, fill: fillOf(ink) });
}

function lineToSvg({ x1, y1, x2, y2, thickness, dash }: LineMark): string {
  return element('path', {
    d: `M${numbers(x1, y1)}L${numbers(x2, y2)}`,
    stroke: '#000',
    'stroke-width': thickness,
    'stroke-dasharray': dash?.map(number).join(' '),
  });
}

function polygonToSvg({ points, ink }: PolygonMark): string {
  return element('path', { fill: fillOf(ink), d: `M${points.map(([x, y]) => numbers(x, y)).join('L')}Z` });
}

/** Two arcs, one bowed more than the other, with a rounded outline that blunts the ends. */
function curveToSvg(mark: CurveMark): string {
  const [start, , , end] = mark.points;
  const { there, back } = arcs(mark);
  return element('path', {
    d: `M${numbers(...start)}C${numbers(...there.flat(), ...end)}C${numbers(...back.flat(), ...start)}Z`,
    stroke: '#000',
    'stroke-width': mark.ends,
    'stroke-linejoin': 'round',
  });
}

const ANCHORS = { start: undefined, middle: 'middle', end: 'end' } as const;

/**
 * What stands in for the faces where a program leaves out those that the page carries: the widest-spread ones that
 * are no wider, so that nothing runs into what is beside it.
 */
const STAND_INS = { sans: `'Arial Narrow',sans-serif`, serif: `'Times New Roman',serif` } as const;

function textToSvg({ text: content, face: name, x, y, size, anchor, ink }: TextMark): string {
  const { family, weight, style } = face(name);
  return element(
    'text',
    {
      x,
      y,
      'font-family': `'${family}',${STAND_INS[family.includes('Serif') ? 'serif' : 'sans']}`,
      'font-size': size,
      'font-weight': weight === 400 ? undefined : weight,
      'font-style': style === 'normal' ? undefined : style,
      'text-anchor': ANCHORS[anchor],
      fill: fillOf(ink),
    },
    text(content.normalize('NFC')),
  );
}

const WRITERS: {
  readonly [K in Mark['kind']]: (mark: Extract<Mark, { kind: K }>, defined: Defined) => string;
} = {
  glyph: glyphToSvg,
  line: lineToSvg,
  polygon: polygonToSvg,
  curve: curveToSvg,
  text: textToSvg,
};

export const marksToSvg = (marks: readonly Mark[], defined: Defined): string =>
  marks.map(mark => (WRITERS[mark.kind] as (mark: Mark, defined: Defined) => string)(mark, defined)).join('');
