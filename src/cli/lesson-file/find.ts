/** The lesson files that words on the command line name: files, folders searched to the bottom, globs. */
import { readdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { isFolder, readTextFile } from '../../batch/files.ts';
import { isLessonFile } from '../../batch/paths.ts';
import { isGlob, noMatch } from '../../batch/tunes.ts';
import { CONFIG_NAME } from '../config/find.ts';
import { UsageError } from '../exit.ts';

/**
 * Paths, each once. A word that names nothing stays as it is, to be refused in its turn. Throws a UsageError for a name
 * that is empty.
 */
export const lessonFiles = async (words: readonly string[]): Promise<readonly string[]> => {
  if (words.includes(''))
    throw new UsageError('the name of a lesson file is empty', 'name a lesson file or a folder');
  const found: string[] = [];
  for (const word of words) {
    const paths = (await pathsOf(word)).filter(isLesson).sort();
    found.push(...(paths.length > 0 ? paths : [word]));
  }
  return [...new Map(found.map(path => [resolve(path), path])).values()];
};

const pathsOf = async (word: string): Promise<readonly string[]> => {
  if (isFolder(word)) return pathsIn(word);
  if (!isGlob(word)) return [];
  const { globSync } = await import('tinyglobby');
  return globSync(word, { expandDirectories: false });
};

/** Nothing where it may not be read. */
const pathsIn = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder, { recursive: true, encoding: 'utf8' }).map(name => join(folder, name));
  } catch {
    return [];
  }
};

/** The text of a lesson file. Throws a Refusal that says what to do where a word names none. */
export const lessonText = (word: string): string => {
  const begin = 'fretward lesson --init writes a lesson file to begin with';
  if (isGlob(word)) throw noMatch(word, 'lesson file');
  return readTextFile(
    word,
    isFolder(word) ? `there is no lesson file (.yaml) in it to be read; ${begin}` : begin,
  );
};

/** What holds the options of tunes lies beside lessons, too. */
const isLesson = (path: string): boolean => isLessonFile(path) && basename(path) !== CONFIG_NAME;
