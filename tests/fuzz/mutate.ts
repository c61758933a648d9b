/**
 * Files that have gone wrong, made from files that are right: in their bytes, or in their structure as
 * MusicXML. The same seed makes the same file on every machine.
 */

/** Numbers from 0 up to but not including the limit. */
export type Dice = (limit: number) => number;

/** Mulberry32, a small generator in the public domain by Tommy Ettinger; written from memory. */
export const diceFrom = (seed: number): Dice => {
  let state = seed >>> 0;
  return limit => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return Math.floor((((t ^ (t >>> 14)) >>> 0) / 2 ** 32) * limit);
  };
};

const pick = <T>(dice: Dice, from: readonly T[]): T => from[dice(from.length)]!;

/** Goes wrong in one way to a few ways: most files stay XML, so that they get past the parser. */
export const mutate = (bytes: Uint8Array, dice: Dice): Uint8Array => {
  const changes = bytes[0] === 0x3c && dice(6) > 0 ? IN_STRUCTURE_OF_BYTES : IN_BYTES;
  let result = bytes;
  for (let times = 1 + dice(4); times > 0; times--) result = pick(dice, changes)(result, dice);
  return result;
};

type Change<T> = (content: T, dice: Dice) => T;

const joined = (...parts: readonly Uint8Array[]): Uint8Array => new Uint8Array(Buffer.concat(parts));

const IN_BYTES: readonly Change<Uint8Array>[] = [
  function flipBits(bytes, dice) {
    const result = Uint8Array.from(bytes);
    for (let times = 1 + dice(20); times > 0 && result.length > 0; times--)
      result[dice(result.length)]! ^= 1 << dice(8);
    return result;
  },
  function cutOff(bytes, dice) {
    return bytes.slice(0, dice(bytes.length + 1));
  },
  function takeOut(bytes, dice) {
    const from = dice(bytes.length + 1);
    return joined(bytes.subarray(0, from), bytes.subarray(from + dice(200)));
  },
  function sayTwice(bytes, dice) {
    const from = dice(bytes.length + 1);
    const to = from + dice(400);
    return joined(bytes.subarray(0, to), bytes.subarray(from));
  },
  function putNoiseIn(bytes, dice) {
    const from = dice(bytes.length + 1);
    const noise = Uint8Array.from({ length: dice(50) }, () => dice(256));
    return joined(bytes.subarray(0, from), noise, bytes.subarray(from));
  },
  function beginWithMark(bytes, dice) {
    return joined(pick(dice, MARKS), bytes);
  },
];

/** Byte order marks and beginnings of other kinds of file. */
const MARKS = [
  [0xef, 0xbb, 0xbf],
  [0xff, 0xfe],
  [0xfe, 0xff],
  [0x50, 0x4b, 0x03, 0x04],
  [0x1f, 0x8b],
  [0],
].map(each => Uint8Array.from(each));

const NUMBERS = [
  '0',
  '-1',
  '-8',
  '1',
  '2',
  '0.5',
  '7',
  '999999999',
  '1e309',
  'NaN',
  'Infinity',
  '',
  ' ',
  '٣',
  '0x10',
  '1/3',
];
const WORDS = ['', 'yes', 'no', 'start', 'stop', 'continue', 'G', 'H', '∞', '&#9;', '&lt;', 'x'.repeat(5000)];

/** The first match of a pattern from anywhere in the text on; undefined where there is none. */
const one = (text: string, pattern: RegExp, dice: Dice): RegExpExecArray | undefined => {
  pattern.lastIndex = dice(text.length);
  return pattern.exec(text) ?? pattern.exec(text) ?? undefined;
};

const replaced = (text: string, match: RegExpExecArray | undefined, by: string): string =>
  match === undefined ? text : text.slice(0, match.index) + by + text.slice(match.index + match[0].length);

/** An element without elements of its own name in it, such as a note, a measure or a pitch. */
const ELEMENT = /<([a-z-]+)\b[^>/]*>(?:(?!<\1\b)[\s\S])*?<\/\1>/g;
const LEAF = /<([a-z-]+)([^>/]*)>([^<]*)<\/\1>/g;
const ATTRIBUTE = /\b([a-z-]+)="([^"]*)"/g;

const IN_STRUCTURE: readonly Change<string>[] = [
  function loseElement(text, dice) {
    return replaced(text, one(text, ELEMENT, dice), '');
  },
  function repeatElement(text, dice) {
    const match = one(text, ELEMENT, dice);
    return replaced(text, match, match ? match[0].repeat(2 + dice(dice(10) === 0 ? 200 : 4)) : '');
  },
  function moveElement(text, dice) {
    const match = one(text, ELEMENT, dice);
    const rest = replaced(text, match, '');
    const there = one(rest, /<\/(?!score-)[a-z-]+>/g, dice);
    return match && there ? replaced(rest, there, there[0] + match[0]) : text;
  },
  function changeNumber(text, dice) {
    const match = one(text, /<([a-z-]+)([^>/]*)>-?\d+<\/\1>/g, dice);
    return replaced(text, match, match ? `<${match[1]}${match[2]}>${pick(dice, NUMBERS)}</${match[1]}>` : '');
  },
  function changeText(text, dice) {
    const match = one(text, LEAF, dice);
    const words = pick(dice, [...WORDS, ...NUMBERS]);
    return replaced(text, match, match ? `<${match[1]}${match[2]}>${words}</${match[1]}>` : '');
  },
  function changeAttribute(text, dice) {
    const match = one(text, ATTRIBUTE, dice);
    return replaced(text, match, match ? `${match[1]}="${pick(dice, [...WORDS, ...NUMBERS])}"` : '');
  },
  function renameElement(text, dice) {
    const [match, other] = [one(text, LEAF, dice), one(text, LEAF, dice)];
    return match && other ? replaced(text, match, `<${other[1]}>${match[3]}</${other[1]}>`) : text;
  },
  function swapMeasures(text, dice) {
    const measure = /<measure\b[\s\S]*?<\/measure>/g;
    const [a, b] = [one(text, measure, dice), one(text, measure, dice)];
    if (!a || !b || a.index === b.index) return text;
    const [first, second] = a.index < b.index ? [a, b] : [b, a];
    return replaced(replaced(text, second, first[0]), first, second[0]);
  },
  function nestDeeply(text, dice) {
    const match = one(text, LEAF, dice);
    const depth = 1 + dice(150);
    return replaced(text, match, match ? `${'<x>'.repeat(depth)}${match[0]}${'</x>'.repeat(depth)}` : '');
  },
  function addDocumentType(text, dice) {
    const type = pick(dice, [
      '<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>',
      '<!DOCTYPE a [<!ENTITY b "bbbb"><!ENTITY c "&b;&b;&b;&b;">]>',
      '<!DOCTYPE score-partwise SYSTEM "nowhere.dtd">',
    ]);
    return text.replace(/<!DOCTYPE[^>]*>/, '').replace('?>', `?>${type}`);
  },
];

const IN_STRUCTURE_OF_BYTES: readonly Change<Uint8Array>[] = IN_STRUCTURE.map(
  change => (bytes, dice) => new TextEncoder().encode(change(new TextDecoder().decode(bytes), dice)),
);
