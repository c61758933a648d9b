/**
 * The one place where musicxml-interfaces is called: an element → the library's typed record of it. The
 * readers get the element beside the record, for what the library drops or bends (see DEVELOPERS.md):
 * line numbers, voice and verse names, lists of endings, `dacapo`, tuplet brackets.
 */
import './xml/dom-parser.ts';
import {
  parseAttributes,
  parseBackup,
  parseBarline,
  parseDirection,
  parseForward,
  parseHarmony,
  parseNote,
  parsePrint,
  paseScoreHeader,
  type ScoreHeader,
} from 'musicxml-interfaces';
import { asText } from './xml/dom-parser.ts';
import { wrap, type XmlElement } from './xml/element.ts';

/** Reads an element; undefined where the library fails on it. */
export type RecordOf<T> = (node: XmlElement) => T | undefined;

const guarded =
  <T>(parse: (text: string) => T): RecordOf<T> =>
  node => {
    try {
      return parse(asText(node));
    } catch {
      return undefined;
    }
  };

export const attributesRecord = guarded(parseAttributes);
export const backupRecord = guarded(parseBackup);
export const barlineRecord = guarded(parseBarline);
export const directionRecord = guarded(parseDirection);
export const forwardRecord = guarded(parseForward);
export const harmonyRecord = guarded(parseHarmony);
export const printRecord = guarded(parsePrint);
const parseGuardedNote = guarded(parseNote);

/** A note without its lyrics, which are read from the tree alone: the library makes numbers of verse names. */
export const noteRecord: RecordOf<ReturnType<typeof parseNote>> = node => {
  const last = node.children[node.children.length - 1];
  if (last?.nodeName !== 'lyric') return parseGuardedNote(node);
  const children = node.children.filter(each => each.nodeName !== 'lyric');
  return parseGuardedNote(wrap(node.nodeName, node.line, children, node.attributes));
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
  return guarded(paseScoreHeader)(wrap(root.nodeName, root.line, header)) ?? {};
};
