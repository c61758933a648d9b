/** Segno and coda: as elements, as symbols of a music font, as characters among words, or only where playing leads. */
import type { Direction } from '../../score/model/direction.ts';
import type { Walk } from '../draft.ts';
import type { XmlElement } from '../xml/element.ts';

type SignDirection = Direction & { readonly kind: 'sign' };
type Sign = SignDirection['sign'];

/** By the names that MusicXML and SMuFL, the layout of music fonts, have for them. */
export const SIGNS: readonly Sign[] = ['segno', 'coda'];

/** Unicode, Musical Symbols; and the words that stand for them in a line of text. */
const CHARACTERS: Readonly<Record<Sign, { readonly character: string; readonly name: string }>> = {
  segno: { character: '\u{1d10b}', name: 'Segno' },
  coda: { character: '\u{1d10c}', name: 'Coda' },
};

/** The character for a `<symbol>` that is a sign; "" for any other element. */
export const signText = (mark: XmlElement): string => {
  const sign = mark.nodeName === 'symbol' && SIGNS.find(each => each === mark.textContent.trim());
  return sign ? CHARACTERS[sign].character : '';
};

/** The signs among words. */
export const signsInWords = (words: string): readonly Sign[] =>
  SIGNS.filter(sign => words.includes(CHARACTERS[sign].character));

/** Words with every sign named: "To 𝄌" → "To Coda". */
export const withSignNames = (words: string): string => replaced(words, sign => CHARACTERS[sign].name);

/** Words without the signs among them. */
export const withoutSigns = (words: string): string => replaced(words, () => ' ');

const replaced = (words: string, by: (sign: Sign) => string): string =>
  SIGNS.reduce((text, sign) => text.replaceAll(CHARACTERS[sign].character, by(sign)), words)
    .replace(/\s+/g, ' ')
    .trim();

/** Takes the signs among names into the measure; one that several elements or staves have there is one. */
export const readSigns = (
  walk: Walk,
  base: Pick<SignDirection, 'at' | 'staff' | 'source'>,
  names: readonly string[],
): void => {
  const list = walk.measure.directions;
  for (const sign of SIGNS) {
    if (!names.includes(sign)) continue;
    if (list.some(each => each.kind === 'sign' && each.sign === sign && each.at === base.at)) continue;
    list.push({ ...base, kind: 'sign', sign });
  }
};
