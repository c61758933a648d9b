/**
 * How many columns of a terminal a text takes, and how to make it fit for one.
 *
 * Wide characters follow Unicode Standard Annex #11 (East Asian Width, classes W and F): two columns.
 * Ambiguous ones count as one, as terminals outside East Asian locales show them. A grapheme is one
 * unit: a letter with its combining marks takes the columns of the letter.
 */

const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\ua960-\ua97f\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff01-\uff60\uffe0-\uffe6\u{1b000}-\u{1b2ff}\u{20000}-\u{3fffd}]|\p{Emoji_Presentation}/u;
const INVISIBLE = /^[\p{Mn}\p{Me}\p{Cf}]+$/u;
/** One column a character, each character a grapheme: nearly every text. */
const SIMPLE = /^[\x20-\x7e\u00a0-\u00ac\u00ae-\u02ff\u2010-\u2027\u2500-\u25fc\u266d-\u266f]*$/;

let segmenter: Intl.Segmenter | undefined;

/** The units that a terminal moves its cursor by, in order. */
export const graphemes = (text: string): readonly string[] => {
  if (SIMPLE.test(text)) return Array.from(text);
  // Slow to make, and few texts need it.
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' });
  return Array.from(segmenter.segment(text), each => each.segment);
};

const graphemeWidth = (grapheme: string): number => {
  if (SIMPLE.test(grapheme)) return 1;
  if (INVISIBLE.test(grapheme)) return 0;
  return WIDE.test(grapheme) ? 2 : 1;
};

/** Columns that a text takes; a grapheme takes 0, 1 or 2. */
export const displayWidth = (text: string): number =>
  SIMPLE.test(text)
    ? text.length
    : graphemes(text).reduce((sum, grapheme) => sum + graphemeWidth(grapheme), 0);

/** The words of a text over as many lines as it needs; a word wider than the width keeps one to itself. */
export const fold = (text: string, width: number): readonly string[] => {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const joined = line === '' ? word : `${line} ${word}`;
    if (line !== '' && displayWidth(joined) > width) {
      lines.push(line);
      line = word;
    } else line = joined;
  }
  return [...lines, line];
};

/** Text from a file as a terminal may show it: one line, composed, no control or direction characters. */
export const cleanText = (text: string): string =>
  text
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Zl}\p{Zp}\s]+/gu, ' ')
    .replace(/[\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]/g, '')
    .trim();

/** The same for text of several lines, which keeps them and all else. */
export const withoutControls = (text: string): string => text.replace(/[^\P{Cc}\n]/gu, ' ');

/** What stands in seven bits for signs that do not decompose into a letter and marks. */
const SEVEN_BIT: Readonly<Record<string, string>> = {
  '♯': '#',
  '♭': 'b',
  '♮': 'n',
  '–': '-',
  '—': '-',
  '‐': '-',
  '‑': '-',
  '‘': "'",
  '’': "'",
  '‚': ',',
  '“': '"',
  '”': '"',
  '„': '"',
  '«': '"',
  '»': '"',
  '…': '...',
  '‿': '_',
  '·': '-',
  '×': 'x',
  '©': '(c)',
  '°': 'o',
  ß: 'ss',
  æ: 'ae',
  Æ: 'AE',
  œ: 'oe',
  Œ: 'OE',
  ø: 'o',
  Ø: 'O',
  đ: 'd',
  Đ: 'D',
  ł: 'l',
  Ł: 'L',
  ð: 'd',
  Ð: 'D',
  þ: 'th',
  Þ: 'Th',
  ı: 'i',
};

/** The text in seven bits: letters lose their marks, and what has no likeness becomes a question mark. */
export const toAscii = (text: string): string =>
  Array.from(text.normalize('NFD').replace(/\p{M}/gu, ''), char =>
    char <= '~' ? char : (SEVEN_BIT[char] ?? '?'),
  ).join('');
