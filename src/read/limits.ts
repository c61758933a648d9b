/** How much is read: more is refused before it costs time and memory. */
import { Refusal } from '../score/diagnostic.ts';
import { counted } from '../score/numbers.ts';

/** Beyond this a file is refused, unless the caller allows more. */
export const MOST = { bytes: 64 * 2 ** 20, notes: 500_000 } as const;

/** Refuses a file of that many bytes, packed or not. */
export const refuseTooLarge = (bytes: number, maxBytes: number): void => {
  if (bytes <= maxBytes) return;
  throw new Refusal({
    severity: 'error',
    code: 'too-large',
    message: `the score is more than ${sizeName(maxBytes)} of XML, the most that is read`,
    hint: 'export only the part with the melody, or raise the limit with --max-bytes',
  });
};

/** "64 MB", "500 kB", "10 bytes". */
const sizeName = (bytes: number): string => {
  if (bytes < 2 ** 10) return counted(bytes, 'byte');
  const [unit, name] = bytes < 2 ** 20 ? ([2 ** 10, 'kB'] as const) : ([2 ** 20, 'MB'] as const);
  return `${Math.round((bytes / unit) * 100) / 100} ${name}`;
};

/** The shortest tag that opens a note. */
const NOTE = '<note>';

/** Refuses a document with more notes and rests, counted by their tags in the text. */
export const refuseTooManyNotes = (xml: string, maxNotes: number): void => {
  if (xml.length <= maxNotes * NOTE.length) return;
  const count = xml.match(/<note[\s/>]/g)?.length ?? 0;
  if (count <= maxNotes) return;
  throw new Refusal({
    severity: 'error',
    code: 'too-many-notes',
    message: `the score has ${count} notes and rests, more than the ${maxNotes} that are read`,
    hint: 'export only the part with the melody, or raise the limit with --max-notes',
  });
};
