/** From what was typed to the tunes to arrange: files, folders searched to the bottom, standard input. */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { basename, extname, join, relative } from 'node:path';
import { Refusal } from '../score/diagnostic.ts';

export interface Input {
  /** What diagnostics call it: the path as typed or found, `standard input` for `-`. */
  readonly name: string;
  /** Path of its outputs below the output folder, without extension. */
  readonly stem: string;
  readonly load: () => Uint8Array;
}

const EXTENSIONS: ReadonlySet<string> = new Set(['.musicxml', '.xml', '.mxl']);

/**
 * The tunes that the arguments name, in the order typed and, in a folder, of their paths. What is not
 * there or cannot be read is refused when it is loaded, so that the other tunes go on.
 */
export const findInputs = (args: readonly string[]): readonly Input[] => args.flatMap(findInput);

const findInput = (arg: string): readonly Input[] => {
  if (arg === '-') return [{ name: 'standard input', stem: 'tune', load: () => readFileSync(0) }];
  if (!statSync(arg, { throwIfNoEntry: false })?.isDirectory()) return [fileInput(arg, basename(arg))];
  const found = tunesIn(arg);
  return found.length > 0
    ? found.map(path => fileInput(path, relative(arg, path)))
    : [{ name: arg, stem: basename(arg), load: () => refuseEmpty(arg) }];
};

/** Paths of the MusicXML files below a folder, in an order that no locale changes. */
const tunesIn = (folder: string): readonly string[] => {
  const entries = readdirSync(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter(entry => !entry.isDirectory() && EXTENSIONS.has(extname(entry.name).toLowerCase()))
    .map(entry => join(entry.parentPath, entry.name))
    .sort();
};

const refuseEmpty = (folder: string): never => {
  throw new Refusal({
    severity: 'error',
    code: 'no-tunes-in-folder',
    message: 'there is no MusicXML file in this folder',
    hint: `tunes end in ${[...EXTENSIONS].join(', ')}`,
    place: { file: folder },
  });
};

const fileInput = (path: string, within: string): Input => ({
  name: path,
  stem: within.slice(0, within.length - extname(within).length),
  load: () => attempt(path, () => readFileSync(path)),
});

/** Runs a file-system call and turns its failure into a refusal that a teacher can read. */
const attempt = <T>(path: string, call: () => T): T => {
  try {
    return call();
  } catch (error) {
    throw new Refusal({
      severity: 'error',
      code: 'cannot-read',
      message: READ_FAILURES[(error as NodeJS.ErrnoException).code ?? ''] ?? 'the file cannot be read',
      hint: 'check the path and its permissions',
      place: { file: path },
    });
  }
};

const READ_FAILURES: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'the file may not be read',
  EPERM: 'the file may not be read',
  EISDIR: 'this is a folder, not a file',
};
