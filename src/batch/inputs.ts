/** From what was typed to the tunes to arrange: files, folders searched to the bottom, globs, standard input. */
import { closeSync, fstatSync, openSync, readdirSync, readSync } from 'node:fs';
import { basename, extname, join, relative } from 'node:path';
import { MOST } from '../read/limits.ts';
import { Refusal } from '../score/diagnostic.ts';
import { cannotRead, isFolder } from './files.ts';
import { isTuneFile, isWithin, TUNE_ENDINGS } from './paths.ts';

export interface Input {
  /** What diagnostics call it: the path as typed or found, `standard input` for `-`. */
  readonly name: string;
  /** Where it lies; undefined for standard input. */
  readonly path: string | undefined;
  /** Path of its outputs below the output folder, without extension. */
  readonly stem: string;
  /** Its bytes, read when they are asked for, and never many more than the limit. Throws a Refusal. */
  readonly load: (maxBytes?: number) => Uint8Array;
}

export interface Search {
  /** A folder that is not searched: the one that outputs go to. */
  readonly except?: string | undefined;
  /** Where the tunes lie in that folder: whether a file there was made by an earlier run, and is no tune to begin with. */
  readonly isMade?: ((path: string) => boolean) | undefined;
}

/** What diagnostics call what is piped in. */
export const STANDARD_INPUT = 'standard input';

/**
 * The tunes that the arguments name, in the order typed and, in a folder, of their paths. What is not
 * there or cannot be read is refused when it is loaded, so that the other tunes go on.
 */
export const findInputs = (args: readonly string[], search: Search = {}): readonly Input[] =>
  args.flatMap(arg => findInput(arg, search));

const findInput = (arg: string, search: Search): readonly Input[] => {
  if (arg === '-') return [standardInput()];
  if (!isFolder(arg)) return [fileInput(arg, basename(arg))];
  try {
    const found = tunesIn(arg, search);
    if (found.length > 0) return found.map(path => fileInput(path, relative(arg, path)));
  } catch (error) {
    return [refusing(arg, () => cannotRead(arg, error))];
  }
  return [refusing(arg, () => noTunes(arg))];
};

const standardInput = (): Input => {
  let bytes: Uint8Array | undefined;
  return {
    name: STANDARD_INPUT,
    path: undefined,
    stem: 'tune',
    load: (maxBytes = MOST.bytes) => {
      bytes ??= readUpTo(0, maxBytes);
      return bytes;
    },
  };
};

/** Paths of the MusicXML files below a folder, in an order that no locale changes. */
const tunesIn = (folder: string, search: Search): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter(entry => !entry.isDirectory() && isTuneFile(entry.name))
    .map(entry => join(entry.parentPath, entry.name))
    .filter(searched(folder, search))
    .sort();

/** Whether a file found below a folder counts: what lies in the folder for outputs does not. */
export const searched = (
  folder: string,
  { except, isMade = () => false }: Search,
): ((path: string) => boolean) => {
  if (except === undefined) return () => true;
  if (isWithin(folder, except)) return path => !isMade(path);
  return path => !isWithin(path, except);
};

/** A file, and its path below the folder that was searched. */
export const fileInput = (path: string, within: string): Input => ({
  name: path,
  path,
  stem: within.slice(0, within.length - extname(within).length),
  load: (maxBytes = MOST.bytes) => {
    let file: number | undefined;
    try {
      file = openSync(path, 'r');
      return readUpTo(file, maxBytes);
    } catch (error) {
      throw cannotRead(path, error);
    } finally {
      if (file !== undefined) closeSync(file);
    }
  },
});

/** An argument that names nothing to read: it is refused in its turn. */
export const refusing = (name: string, refusal: () => Refusal): Input => ({
  name,
  path: undefined,
  stem: basename(name),
  load: () => {
    throw refusal();
  },
});

/** Bytes that are asked for at once where nobody knows how many there are. */
const CHUNK = 2 ** 16;

/** Reads to the end, or a little further than is allowed: what is too large is refused by who knows why. */
const readUpTo = (file: number, maxBytes: number): Uint8Array => {
  const parts: Uint8Array[] = [];
  let size = 0;
  // One byte more than a file is said to have, so that one reading finds its end.
  let room = Math.min(fstatSync(file).size, maxBytes) + 1;
  while (size <= maxBytes) {
    const part = Buffer.allocUnsafeSlow(room > 1 ? room : CHUNK);
    let filled = 0;
    let count = -1;
    while (count !== 0 && filled < part.length) {
      count = readSome(file, part.subarray(filled));
      filled += count;
    }
    parts.push(part.subarray(0, filled));
    size += filled;
    if (count === 0) break;
    room = CHUNK;
  }
  return parts.length === 1 ? parts[0]! : Buffer.concat(parts);
};

const readSome = (file: number, chunk: Buffer): number => {
  for (;;) {
    try {
      return readSync(file, chunk);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      // A terminal or pipe without bytes just now; EOF is an error on one system.
      if (code === 'EOF') return 0;
      if (code !== 'EAGAIN') throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10);
    }
  }
};

const noTunes = (folder: string): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'no-tunes-in-folder',
    message: 'there is no MusicXML file in this folder',
    hint: `tunes end in ${TUNE_ENDINGS.join(', ')}`,
    place: { file: folder },
  });
