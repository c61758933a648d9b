/**
 * The one place where musicxml-interfaces is called: an element → the library's typed record of it. The
 * readers get the element beside the record, for what the library drops or bends: line numbers, voice
 * names, lists of endings, the second of several marks. Directions, notations and lyrics are read from
 * their elements alone.
 */
import './xml/dom-parser.ts';
import {
  parseAttributes,
  parseBackup,
  parseBarline,
  parseForward,
  parseHarmony,
  parseNote,
  parsePrint,
  paseScoreHeader,
  type ScoreHeader,
} from 'musicxml-interfaces';
import { asText } from './xml/dom-parser.ts';
import { wrap, type XmlElement } from './xml/element.ts';

/** Reads an element. */
export type RecordOf<T> = (node: XmlElement) => T;

const given =
  <T>(parse: (text: string) => T): RecordOf<T> =>
  node =>
    parse(asText(node));

export const attributesRecord = given(parseAttributes);
export const backupRecord = given(parseBackup);
export const barlineRecord = given(parseBarline);
export const forwardRecord = given(parseForward);
export const harmonyRecord = given(parseHarmony);
export const printRecord = given(parsePrint);
const wholeNoteRecord = given(parseNote);

/** A note without its lyrics, which are read from the tree alone: the library makes numbers of verse names. */
export const noteRecord: RecordOf<ReturnType<typeof parseNote>> = node => {
  const last = node.children[node.children.length - 1];
  if (last?.nodeName !== 'lyric') return wholeNoteRecord(node);
  const children = node.children.filter(each => each.nodeName !== 'lyric');
  return wholeNoteRecord(wrap(node.nodeName, node.line, children, node.attributes));
};

const HEADER: ReadonlySet<string> = new Set([
  'work',
  'movement-title',
  'identification',
  'credit',
  'part-list',
]);

/** The score's header, without its page layout. */
export const readHeader = (root: XmlElement): Partial<ScoreHeader> => {
  const header = root.children.filter(each => HEADER.has(each.nodeName));
  return paseScoreHeader(asText(wrap(root.nodeName, root.line, header)));
};
