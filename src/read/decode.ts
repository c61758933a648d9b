/** Bytes → text. The bytes decide: a byte order mark, the shape of `<?xml`, and only then what is declared. */
import { Refusal } from '../score/diagnostic.ts';

/** The text of an XML document in UTF-8, UTF-16 (either order) or a declared single-byte encoding. */
export const decodeXml = (bytes: Uint8Array): string => {
  const encoding = encodingOf(bytes);
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch (error) {
    throw error instanceof RangeError ? unknownEncoding(encoding) : wrongBytes(encoding, bytes);
  }
};

const encodingOf = (bytes: Uint8Array): string => {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return 'utf-16le';
  if (a === 0xfe && b === 0xff) return 'utf-16be';
  if (a === 0x3c && b === 0) return 'utf-16le';
  if (a === 0 && b === 0x3c) return 'utf-16be';
  const head = String.fromCharCode(...bytes.subarray(0, 200));
  const declared = /^(?:\u00ef\u00bb\u00bf)?\s*<\?xml[^>]*?encoding\s*=\s*["']([A-Za-z0-9._-]+)["']/.exec(
    head,
  )?.[1];
  // A file whose declaration can be read byte by byte is not in UTF-16, whatever it declares.
  return declared === undefined || /^(utf-?16|ucs-?2)/i.test(declared) ? 'utf-8' : declared;
};

const unknownEncoding = (encoding: string): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'unknown-encoding',
    message: `the file declares the encoding "${encoding}", which is not known`,
    hint: 'save it as UTF-8',
    place: { line: 1 },
  });

/** A decoder that is not strict puts U+FFFD where the bytes go wrong. */
const wrongBytes = (encoding: string, bytes: Uint8Array): Refusal => {
  const [before = ''] = new TextDecoder(encoding).decode(bytes).split('\ufffd', 1);
  return new Refusal({
    severity: 'error',
    code: 'wrong-encoding',
    message: `the bytes are not text in ${encoding.toUpperCase()}`,
    hint: 'if this is a MusicXML file, save it as UTF-8; otherwise export the tune as MusicXML',
    place: { line: before.split(/\r\n|\n|\r/).length },
  });
};
