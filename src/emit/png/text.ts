/** Text as outlines in SVG, each letter defined once: a picture then needs no font. */
import { INKS } from '../../engrave/drawing/ink.ts';
import type { TextMark } from '../../engrave/drawing/text.ts';
import type { Defined } from '../svg/marks.ts';
import { element, number } from '../svg/writer.ts';
import { emptyBoxes } from '../type/box.ts';
import type { Font, Fonts } from '../type/fonts.ts';
import { type Run, setText } from '../type/runs.ts';

type Kit = ReturnType<Font['kit']>;
type Glyph = ReturnType<Kit['getGlyph']>;

const LETTERS = {
  moveTo: 'M',
  lineTo: 'L',
  quadraticCurveTo: 'Q',
  bezierCurveTo: 'C',
  closePath: 'Z',
} as const;

/** In font units, y upwards. */
const pathOf = (glyph: Glyph): string =>
  glyph.path.commands.map(({ command, args }) => LETTERS[command] + args.map(number).join(' ')).join('');

function useLetter(glyph: Glyph, font: Font, x: number, y: number, defined: Defined): string {
  const id = `${font.id}-${glyph.id}`;
  if (!defined.has(id)) {
    const d = pathOf(glyph);
    defined.set(id, d === '' ? '' : element('path', { id, d }));
  }
  return defined.get(id) === '' ? '' : element('use', { href: `#${id}`, x, y });
}

function runToSvg({ text, x, narrowing }: Run, font: Font, mark: TextMark, defined: Defined): string {
  const kit = font.kit();
  const { glyphs, positions } = kit.layout(text, []);
  const scale = mark.size / kit.unitsPerEm;
  let pen = 0;
  const letters = glyphs.map((glyph, index) => {
    const { xAdvance, xOffset, yOffset } = positions[index]!;
    const letter = useLetter(glyph, font, pen + xOffset, yOffset, defined);
    pen += xAdvance;
    return letter;
  });
  const transform = `translate(${number(x)} ${number(mark.y)}) scale(${scale * narrowing} ${-scale})`;
  return element('g', { transform, fill: mark.ink && INKS[mark.ink] }, letters.join(''));
}

/** A text mark, every character drawn. */
export const textToOutlines = (mark: TextMark, fonts: Fonts, defined: Defined): string =>
  setText(mark, fonts)
    .map(run =>
      run.font
        ? runToSvg(run, run.font, mark, defined)
        : emptyBoxes(run, mark)
            .map(({ thickness, ...box }) =>
              element('rect', { ...box, fill: 'none', stroke: '#000', 'stroke-width': thickness }),
            )
            .join(''),
    )
    .join('');
