/** Writing files so that none is ever seen half-written. */
import { mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { Refusal } from '../score/diagnostic.ts';

export interface OutputFile {
  readonly path: string;
  readonly content: string | Uint8Array;
}

/**
 * Writes files all or none: each beside its place first, and into place only when all are on the disk.
 * Folders that are not there are made. Throws a Refusal that names the file that could not be written.
 */
export const writeFiles = (files: readonly OutputFile[]): void => {
  const beside = (path: string) => `${path}.${process.pid}.part`;
  const made: string[] = [];
  let current = '';
  try {
    for (const { path, content } of files) {
      current = path;
      mkdirSync(dirname(path), { recursive: true });
      made.push(beside(path));
      writeFileSync(beside(path), content);
    }
    for (const { path } of files) {
      current = path;
      renameSync(beside(path), path);
    }
  } catch (error) {
    for (const path of made) rmSync(path, { force: true });
    const { code } = error as NodeJS.ErrnoException;
    throw new Refusal({
      severity: 'error',
      code: 'cannot-write',
      message: WRITE_FAILURES[code ?? ''] ?? `the file cannot be written (${code ?? 'unknown cause'})`,
      hint: 'nothing of this tune was written; choose another folder with --out',
      place: { file: current },
    });
  }
};

const WRITE_FAILURES: Readonly<Record<string, string>> = {
  EACCES: 'the file may not be written',
  EPERM: 'the file may not be written',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  ENOTDIR: 'a file is in the way where a folder should be',
  EEXIST: 'a file is in the way where a folder should be',
  EISDIR: 'a folder is in the way where a file should be',
};
