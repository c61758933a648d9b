/**
 * Bytes of a MusicXML file → Score. The way: unpack (.mxl), decode, parse the XML once, cut it into parts
 * and measures, walk through each part with musicxml-interfaces' records of its elements, and join what
 * spans measures. What cannot be read is refused; what a part has beyond the model is counted
 * in its `leftOut`, and said when the part is chosen.
 */
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { Ticks } from '../score/model/duration.ts';
import type { Score } from '../score/model.ts';
import { metreTicks } from '../score/time.ts';
import { decodeXml } from './decode.ts';
import { Ids } from './draft.ts';
import { headingOf } from './heading.ts';
import { readHeader } from './library.ts';
import { MOST, refuseTooManyNotes } from './limits.ts';
import { commonDivision } from './measure/duration.ts';
import { finishPart } from './part.ts';
import { cutIntoParts } from './parts.ts';
import { lendRepeats } from './repeats.ts';
import { unpackScore } from './unpack.ts';
import { type WalkedPart, walkPart } from './walk.ts';
import { parseXml } from './xml/parse.ts';

/** How much is read before a file is refused as too large. */
export interface ReadOptions {
  /** The most bytes of XML that are read, packed or not; 64 MiB by default. */
  readonly maxBytes?: number;
  /** The most notes and rests that are read, of all parts together; 500,000 by default. */
  readonly maxNotes?: number;
}

/** What a file holds, and what the reader had to say about it. */
export interface Reading {
  readonly score: Score;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * Reads a MusicXML file, versions 1.0 to 4.0, compressed or not, part-wise or time-wise. The bytes decide
 * what it is. Throws a Refusal, whose places have no file name: the caller knows it.
 */
export const readScore = (bytes: Uint8Array, options: ReadOptions = {}): Reading => {
  const document = unpackScore(bytes, options.maxBytes ?? MOST.bytes);
  if (document.length === 0) throw emptyFile();
  const text = decodeXml(document);
  refuseTooManyNotes(text, options.maxNotes ?? MOST.notes);
  const root = parseXml(text);
  const rawParts = cutIntoParts(root);
  const header = readHeader(root);
  const names = partNames(header);
  const division = commonDivision(rawParts);
  const ids = new Ids();
  const walked = rawParts.map(part => walkPart(part, names.get(part.id) ?? '', { division, ids }));
  lendRepeats(walked.map(({ walk }) => walk.measures));
  const lengths = measureLengths(walked, division);
  const parts = walked.map(part => finishPart(part, lengths));
  const unlisted = rawParts.filter(part => !names.has(part.id));
  return {
    score: { ...headingOf(header), division, parts },
    diagnostics: unlisted.map(part => ({
      severity: 'warning',
      code: 'unlisted-part',
      message: `part "${part.id}" is not in the list of parts; it is read without a name`,
      place: { line: part.line, part: part.id },
    })),
  };
};

const partNames = (header: ReturnType<typeof readHeader>): ReadonlyMap<string, string> => {
  const names = new Map<string, string>();
  for (const part of header.partList ?? []) {
    if (!('partName' in part)) continue;
    names.set(part.id, (part.partName?.partName ?? '').replace(/\s+/g, ' ').trim());
  }
  return names;
};

/** Measures sound together in all parts: each is as long as its longest voice in any. */
const measureLengths = (parts: readonly WalkedPart[], division: Ticks): readonly Ticks[] => {
  const filled: Ticks[] = [];
  const promised: Ticks[] = [];
  for (const { extents, walk } of parts) {
    for (const [index, extent] of extents.entries()) {
      filled[index] = Math.max(filled[index] ?? 0, extent);
      promised[index] ??= metreTicks(walk.measures[index]!.time, division) ?? 4 * division;
    }
  }
  return filled.map((ticks, index) => (ticks > 0 ? ticks : promised[index]!));
};

const emptyFile = (): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'empty-file',
    message: 'the file is empty',
    hint: 'export the tune again as MusicXML',
  });
