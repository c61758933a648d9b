/** Embeds the blocks of the text faces that a page's characters need, as @font-face rules. */
import type { TextMark } from '../../engrave/drawing/text.ts';
import { type FaceName, face } from '../../engrave/font/face.ts';
import { namesIn } from '../../lesson/table.ts';
import { FONTS } from './fonts.generated.ts';

interface Block {
  readonly characters: string;
  readonly data: string;
}

const blocksOf = (name: FaceName): readonly Block[] => Object.values(FONTS[name]);

function usedCharacters(texts: readonly TextMark[]): Map<FaceName, Set<string>> {
  const used = new Map<FaceName, Set<string>>();
  for (const { face: name, text } of texts) {
    const characters = used.get(name) ?? new Set();
    for (const character of text.normalize('NFC')) characters.add(character);
    used.set(name, characters);
  }
  return used;
}

/** The block's characters as CSS ranges. */
function unicodeRange(characters: string): string {
  const points = [...characters].map(each => each.codePointAt(0)!).sort((a, b) => a - b);
  const ranges: [number, number][] = [];
  for (const point of points) {
    const last = ranges.at(-1);
    if (last && last[1] + 1 === point) last[1] = point;
    else ranges.push([point, point]);
  }
  const hex = (value: number) => value.toString(16).toUpperCase();
  return ranges.map(([from, to]) => (from === to ? `U+${hex(from)}` : `U+${hex(from)}-${hex(to)}`)).join(',');
}

function rule(name: FaceName, { characters, data }: Block): string {
  const { family, weight, style } = face(name);
  return `@font-face{font-family:'${family}';font-weight:${weight};font-style:${style};unicode-range:${unicodeRange(characters)};src:url(data:font/woff2;base64,${data}) format('woff2')}\n`;
}

/** Rules for all faces and blocks in use, in a fixed order. */
export function fontFaces(texts: readonly TextMark[]): string {
  const used = usedCharacters(texts);
  return namesIn(FONTS)
    .flatMap(name =>
      blocksOf(name)
        .filter(block => [...(used.get(name) ?? [])].some(each => block.characters.includes(each)))
        .map(block => rule(name, block)),
    )
    .join('');
}
