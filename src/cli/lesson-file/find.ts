/** The lesson files that words on the command line name: files, folders searched to the bottom, globs. */
import { existsSync, readdirSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { isFolder } from '../../batch/files.ts';
import { isLessonFile } from '../../batch/paths.ts';
import { fixedPart } from '../../batch/tunes.ts';
import { CONFIG_NAME } from '../config/find.ts';

/** Paths, each once. A word that names nothing stays as it is, to be refused in its turn. */
export const lessonFiles = async (words: readonly string[]): Promise<readonly string[]> => {
  const found: string[] = [];
  for (const word of words) {
    const paths = (await pathsOf(word)).filter(isLesson).sort();
    found.push(...(paths.length > 0 ? paths : [word]));
  }
  return [...new Map(found.map(path => [resolve(path), path])).values()];
};

const pathsOf = async (word: string): Promise<readonly string[]> => {
  if (isFolder(word)) {
    return readdirSync(word, { recursive: true, encoding: 'utf8' }).map(name => join(word, name));
  }
  if (existsSync(word) || fixedPart(word) === word) return [];
  const { globSync } = await import('tinyglobby');
  return globSync(word, { expandDirectories: false });
};

/** What holds the options of tunes lies beside lessons, too. */
const isLesson = (path: string): boolean => isLessonFile(path) && basename(path) !== CONFIG_NAME;
