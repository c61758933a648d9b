/**
 * Bytes as they come → the bytes of the XML document. A compressed file (.mxl) is a ZIP archive whose
 * META-INF/container.xml names the score (MusicXML 4.0, "Compressed .mxl files"): it is followed, not
 * guessed. Only those two entries are unpacked, and never to more than the limit.
 */
import { unzipSync } from 'fflate/browser';
import { Refusal } from '../score/diagnostic.ts';
import { decodeXml } from './decode.ts';
import { refuseTooLarge } from './limits.ts';
import { attribute, child, type XmlElement } from './xml/element.ts';
import { parseXml } from './xml/parse.ts';

const CONTAINER = 'META-INF/container.xml';
/** A container is a few lines. */
const MAX_CONTAINER = 2 ** 20;
const SCORE_TYPES = new Set(['application/vnd.recordare.musicxml+xml', 'application/vnd.recordare.musicxml']);

/** The XML document, out of its archive if it is in one. Throws a Refusal. */
export const unpackScore = (bytes: Uint8Array, maxBytes: number): Uint8Array => {
  if (!isZip(bytes)) {
    refuseTooLarge(bytes.length, maxBytes);
    return bytes;
  }
  const container = unpackEntry(bytes, CONTAINER, Math.min(maxBytes, MAX_CONTAINER));
  if (container === undefined) throw noContainer();
  const path = rootFile(decodeXml(container));
  const score = path === undefined ? undefined : unpackEntry(bytes, path, maxBytes);
  if (score === undefined) throw noRootFile(path);
  return score;
};

const isZip = (bytes: Uint8Array): boolean =>
  bytes[0] === 0x50 && bytes[1] === 0x4b && bytes[2] === 0x03 && bytes[3] === 0x04;

const unpackEntry = (archive: Uint8Array, path: string, maxBytes: number): Uint8Array | undefined => {
  let found: string | undefined;
  const files = unzip(archive, entry => {
    if (found !== undefined || plainPath(entry.name) !== plainPath(path)) return false;
    refuseTooLarge(entry.originalSize, maxBytes);
    found = entry.name;
    return true;
  });
  return found === undefined ? undefined : files[found];
};

type Filter = (entry: { readonly name: string; readonly originalSize: number }) => boolean;

const unzip = (archive: Uint8Array, filter: Filter): Record<string, Uint8Array> => {
  try {
    return unzipSync(archive, { filter });
  } catch (error) {
    if (error instanceof Refusal) throw error;
    throw new Refusal({
      severity: 'error',
      code: 'damaged-archive',
      message: 'the archive is damaged or encrypted',
      hint: 'export the tune again, or export it uncompressed (.musicxml)',
    });
  }
};

const plainPath = (path: string): string => path.replaceAll('\\', '/').replace(/^(\.?\/)+/, '');

const rootFile = (container: string): string | undefined => {
  let root: XmlElement;
  try {
    root = parseXml(container);
  } catch {
    return brokenRootFile(container);
  }
  const list = child(root, 'rootfiles')?.children.filter(each => each.nodeName === 'rootfile') ?? [];
  // One without a media type is taken for a score (MusicXML 4.0, rootfile); others are pictures or recordings.
  const isScore = (type: string | undefined): boolean => type === undefined || SCORE_TYPES.has(type);
  const score = list.find(each => isScore(attribute(each, 'media-type'))) ?? list[0];
  return score === undefined ? undefined : attribute(score, 'full-path');
};

/** Some writers put a file's name between quotes without escaping the quotes in it: what it names is plain. */
const brokenRootFile = (container: string): string | undefined =>
  /<rootfile\b[^>]*?\bfull-path\s*=\s*(["'])(.+?)\1\s*(?:\/?>|media-type\s*=)/s.exec(container)?.[2];

const noContainer = (): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'archive-without-container',
    message: `the archive has no ${CONTAINER}, so it is not a compressed MusicXML file`,
    hint: 'export the tune as MusicXML (.mxl or .musicxml)',
  });

const noRootFile = (path: string | undefined): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'archive-without-root-file',
    message:
      path === undefined
        ? `${CONTAINER} names no root file`
        : `${CONTAINER} names "${path}" as root file, but the archive does not hold it`,
    hint: 'export the tune again as MusicXML (.mxl or .musicxml)',
  });
