/**
 * The one place where musicxml-interfaces is called: elements of a measure → its typed records, each
 * beside the element it came from. The element is for what the library drops or bends (see
 * DEVELOPERS.md): line numbers, voice and verse names, lists of endings, `dacapo`, tuplet brackets.
 */
import './xml/dom-parser.ts';
import {
  type Attributes,
  type Backup,
  type Barline,
  type Direction,
  type Forward,
  type Harmony,
  type Note,
  type Print,
  parseMeasure,
  paseScoreHeader,
  type ScoreHeader,
  type Sound,
} from 'musicxml-interfaces';
import { asText } from './xml/dom-parser.ts';
import { wrap, XmlAttribute, type XmlElement } from './xml/element.ts';

interface Records {
  note: Note;
  backup: Backup;
  forward: Forward;
  attributes: Attributes;
  barline: Barline;
  direction: Direction;
  sound: Sound;
  harmony: Harmony;
  print: Print;
  'figured-bass': object;
  grouping: object;
}

/** What a measure holds, in order. `unreadable` is what the library failed on. */
export type Item =
  | {
      [K in keyof Records]: { readonly kind: K; readonly node: XmlElement; readonly data: Records[K] };
    }[keyof Records]
  | { readonly kind: 'unreadable'; readonly node: XmlElement };

const KNOWN: ReadonlySet<string> = new Set<keyof Records>([
  'note',
  'backup',
  'forward',
  'attributes',
  'barline',
  'direction',
  'sound',
  'harmony',
  'print',
  'figured-bass',
  'grouping',
]);

/** The library copies its list for every element it adds to it; so it is given a few at a time. */
const CHUNK = 64;

const PART = [new XmlAttribute('id', 'P')];

/** Reads the elements of one measure of one part. */
export const readItems = (content: readonly XmlElement[]): readonly Item[] => {
  const nodes: XmlElement[] = [];
  for (const node of content) {
    if (node.nodeName === 'harmony') nodes.push(...singleChords(node));
    else if (KNOWN.has(node.nodeName)) nodes.push(node);
  }
  const items: Item[] = [];
  for (let from = 0; from < nodes.length; from += CHUNK) {
    const chunk = from === 0 && nodes.length <= CHUNK ? nodes : nodes.slice(from, from + CHUNK);
    const records = recordsOf(chunk);
    if (records === undefined) items.push(...oneByOne(chunk));
    else for (let i = 0; i < chunk.length; i += 1) items.push(itemOf(chunk[i]!, records[i]!));
  }
  return items;
};

const HEADER: ReadonlySet<string> = new Set([
  'work',
  'movement-title',
  'identification',
  'credit',
  'part-list',
]);

/** The score's header, without its page layout; empty where the library cannot read it. */
export const readHeader = (root: XmlElement): Partial<ScoreHeader> => {
  const header = root.children.filter(each => HEADER.has(each.nodeName));
  try {
    return paseScoreHeader(asText(wrap(root.nodeName, root.line, header)));
  } catch {
    return {};
  }
};

const recordsOf = (nodes: readonly XmlElement[]): readonly object[] | undefined => {
  try {
    return parseMeasure(asText(wrap('measure', 0, [wrap('part', 0, nodes, PART)]))).parts.P!;
  } catch {
    return undefined;
  }
};

const oneByOne = (nodes: readonly XmlElement[]): readonly Item[] =>
  nodes.map(node => {
    const records = recordsOf([node]);
    return records === undefined ? { kind: 'unreadable', node } : itemOf(node, records[0]!);
  });

const itemOf = (node: XmlElement, data: object): Item => ({ kind: node.nodeName, node, data }) as Item;

const CHORD_STARTS: ReadonlySet<string> = new Set(['root', 'function', 'numeral']);

/** A harmony element may hold several chords, of which the library keeps the last: one element each. */
const singleChords = (harmony: XmlElement): readonly XmlElement[] => {
  const starts = harmony.children.filter(each => CHORD_STARTS.has(each.nodeName));
  if (starts.length < 2) return [harmony];
  const common = harmony.children.filter(each => each.nodeName === 'offset' || each.nodeName === 'staff');
  return starts.map((start, index) => {
    const from = harmony.children.indexOf(start);
    const to = index + 1 < starts.length ? harmony.children.indexOf(starts[index + 1]!) : undefined;
    const chord = harmony.children.slice(from, to).filter(each => !common.includes(each));
    return wrap('harmony', start.line, [...chord, ...common], harmony.attributes);
  });
};
