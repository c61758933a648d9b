/** Writing files so that none is ever seen half-written, and reading those that hold text. */
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { basename, dirname, join, parse } from 'node:path';
import { Refusal } from '../score/diagnostic.ts';
import { nearest } from '../score/nearest.ts';

export interface OutputFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes files all or none: each beside its place first, and into place only when all are on the disk.
 * Folders that are not there are made; parts that a program left there when it was killed go. Throws a Refusal that
 * names the file that could not be written, with `hint` as the way out.
 */
export const writeFiles = (files: readonly OutputFile[], hint?: string): void => {
  const parts: string[] = [];
  let current = '';
  try {
    for (const [index, { path, content }] of files.entries()) {
      current = path;
      makeFolder(dirname(path));
      if (isFolder(path)) throw Object.assign(new Error(), { code: 'EISDIR' });
      removeParts(dirname(path));
      const part = join(dirname(path), `.fretward-${MACHINE}-${process.pid}-${index}.part`);
      parts.push(part);
      writeFileSync(part, content);
    }
    for (const [index, { path }] of files.entries()) {
      current = path;
      renameSync(parts[index]!, path);
    }
  } catch (error) {
    for (const part of parts) removeQuietly(part);
    throw cannotWrite(current, error, hint);
  }
};

/**
 * Makes a folder and those above it. Not by `recursive`, which in Node 20 never ends where a system refuses a folder
 * as if the one above were not there, as Linux does in /proc.
 */
const makeFolder = (path: string): void => {
  if (isFolder(path)) return;
  if (dirname(path) !== path) makeFolder(dirname(path));
  try {
    mkdirSync(path);
  } catch (error) {
    // Another process may have been quicker.
    if (!isFolder(path)) throw error;
  }
};

/** Machines may share a folder, and each has its own numbers for processes. */
const MACHINE = hostname().replace(/[^A-Za-z0-9]/g, '_');
const PART = /^\.fretward-([A-Za-z0-9_]*)-(\d+)-\d+\.part$/;

/** Folders without such parts: looked through once. */
const tidy = new Set<string>();

/** Removes what programs began to write in a folder, on this machine, and were killed over. */
const removeParts = (folder: string): void => {
  if (tidy.has(folder)) return;
  tidy.add(folder);
  for (const name of readdirSync(folder)) {
    const [, machine, process] = PART.exec(name) ?? [];
    if (machine === MACHINE && !isRunning(Number(process))) removeQuietly(join(folder, name));
  }
};

/** Whether another process of that number runs; our own leaves nothing behind. */
const isRunning = (id: number): boolean => {
  if (id === process.pid) return false;
  try {
    process.kill(id, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
};

/** Whether there is a folder at a path, as far as we may look. */
export const isFolder = (path: string): boolean => {
  try {
    return statSync(path).isDirectory();
  } catch {
    return false;
  }
};

/** Removes a file; one that is not there, or cannot be removed, is left. */
export const removeQuietly = (path: string): void => {
  try {
    rmSync(path, { force: true });
  } catch {
    // The failure that led here is the one to tell.
  }
};

const cannotWrite = (
  path: string,
  error: unknown,
  hint = 'none of these sheets was written; choose another folder with --out',
): Refusal => {
  const { code } = error as NodeJS.ErrnoException;
  return new Refusal({
    severity: 'error',
    code: 'cannot-write',
    message: WRITE_FAILURES[code ?? ''] ?? `the file cannot be written (${code ?? 'unknown cause'})`,
    hint,
    place: { file: FILE_IN_THE_WAY.has(code ?? '') ? lowestThere(path) : path },
  });
};

/** The path, or of the folders above it the lowest that is there, whatever it is. */
const lowestThere = (path: string): string =>
  existsSync(path) || path === dirname(path) ? path : lowestThere(dirname(path));

const FILE_IN_THE_WAY: ReadonlySet<string> = new Set(['ENOTDIR', 'EEXIST']);

const WRITE_FAILURES: Readonly<Record<string, string>> = {
  EACCES: 'the file may not be written',
  EPERM: 'the file may not be written',
  EROFS: 'the disk is read-only',
  ENOENT: 'no folder can be made there',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'a file is in the way where a folder should be',
  EEXIST: 'a file is in the way where a folder should be',
  EISDIR: 'a folder is in the way where a file should be',
  ENAMETOOLONG: 'the name is too long for a file',
  EDQUOT: 'there is no room left for this user on the disk',
};

/** The text of a file. Throws a Refusal that says what to do where it cannot be read. */
export const readTextFile = (path: string, hint?: string): string => {
  try {
    return readFileSync(path, 'utf8');
  } catch (error) {
    throw cannotRead(path, error, hint);
  }
};

/** The refusal of a file that the system does not give; where there is none, the hint names one that may be meant. */
export const cannotRead = (
  path: string,
  error: unknown,
  hint = 'check the path and its permissions',
): Refusal => {
  const meant = (error as NodeJS.ErrnoException).code === 'ENOENT' ? nearestFile(path) : undefined;
  return new Refusal({
    severity: 'error',
    code: 'cannot-read',
    message: readFailure(error),
    hint: meant === undefined ? hint : `is ${meant} meant?`,
    place: { file: path },
  });
};

/** The file beside it that has the name with an ending, or the file or folder whose name is nearest. */
const nearestFile = (path: string): string | undefined => {
  try {
    const names = readdirSync(dirname(path));
    const name = basename(path);
    const meant = names.find(each => parse(each).name === name) ?? nearest(name, names);
    return meant === undefined ? undefined : join(dirname(path), meant);
  } catch {
    return undefined;
  }
};

/** Why the system does not give a file, in words. */
export const readFailure = (error: unknown): string => {
  const { code } = error as NodeJS.ErrnoException;
  return READ_FAILURES[code ?? ''] ?? `it cannot be read (${code ?? 'unknown cause'})`;
};

const READ_FAILURES: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file or folder',
  ENOTDIR: 'there is no such file or folder',
  EACCES: 'it may not be read',
  EPERM: 'it may not be read',
  EISDIR: 'this is a folder, not a file',
  ELOOP: 'it is a link that leads to itself',
  ENAMETOOLONG: 'the name is too long for a file',
};
