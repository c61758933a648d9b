/** How output folders stand when a run is over: what lies in them that nobody makes any more. */
import { existsSync, readdirSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Diagnostic } from '../score/diagnostic.ts';
import { counted } from '../score/numbers.ts';
import { MEMORY_FILE, type Memories } from './memory.ts';
import type { Mode, Task } from './task.ts';

/** How the folders of a run stand. */
export interface Standing {
  /** Paths of files that an earlier run made, and that belong to nothing that is made now. */
  readonly leftOver: readonly string[];
  /** Paths of files that this run wrote over, made of another tune, or in between with other options. */
  readonly contested: readonly string[];
}

/**
 * Paths of files in the folders of a run that nothing makes any more, as far as the folders remember; `isClaimed` says
 * what the run made, or found up to date.
 */
export const leftOvers = (
  tasks: readonly Task[],
  memories: Memories,
  isClaimed: (path: string) => boolean,
): readonly string[] => {
  const lessons = foldersOf(tasks.filter(isLesson));
  const left = [
    ...foldersOf(tasks.filter(task => !isLesson(task))).flatMap(folder =>
      pathsIn(folder, memories.of(folder).leftOver()),
    ),
    // A lesson has its folder for itself, and says all that is asked for: one that is refused makes nothing.
    ...lessons.flatMap(folder => pathsIn(folder, memories.of(folder).everMade(basename(folder)))),
    ...lessonsBeside(lessons).flatMap(folder =>
      pathsIn(folder, memories.of(folder).leftOver(basename(folder))),
    ),
  ];
  return left.filter(path => !isClaimed(path)).sort();
};

const isLesson = (task: Task): boolean => task.kind === 'refused' || task.job.kind === 'lesson';

const foldersOf = (tasks: readonly Task[]): readonly string[] => [
  ...new Set(tasks.map(({ folder }) => folder)),
];

const pathsIn = (folder: string, names: readonly string[]): readonly string[] =>
  names.map(name => join(folder, name));

/** Folders of other lessons beside those: every lesson has one, of its own name. */
const lessonsBeside = (lessons: readonly string[]): readonly string[] =>
  [...new Set(lessons.map(folder => dirname(folder)))].flatMap(parent =>
    foldersIn(parent)
      .map(name => join(parent, name))
      .filter(folder => !lessons.includes(folder) && existsSync(join(folder, MEMORY_FILE))),
  );

const foldersIn = (folder: string): readonly string[] => {
  try {
    return readdirSync(folder, { withFileTypes: true })
      .filter(entry => entry.isDirectory())
      .map(({ name }) => name);
  } catch {
    return [];
  }
};

/** What is to be said about it: one warning or error of each kind. */
export const aboutStanding = ({ leftOver, contested }: Standing, mode: Mode): readonly Diagnostic[] => [
  ...(contested.length > 0 ? [overwritten(contested)] : []),
  ...(leftOver.length > 0 ? [remaining(leftOver, mode)] : []),
];

/** In what is compared nothing may lie that this command does not make: it would go to class with the rest. */
const remaining = (paths: readonly string[], mode: Mode): Diagnostic => {
  const message = `${files(paths)} of earlier runs ${paths.length === 1 ? 'belongs' : 'belong'} to nothing that is made now: ${listed(paths)}`;
  const whole = isCut(paths) ? '; --report json lists all' : '';
  const hint = `delete what is no longer wanted, lest it is handed out${whole}`;
  return mode === 'compare'
    ? { severity: 'error', code: 'output-left-over', message, hint }
    : { severity: 'warning', code: 'left-over', message, hint };
};

const overwritten = (paths: readonly string[]): Diagnostic => ({
  severity: 'warning',
  code: 'output-shared',
  message: `${files(paths)} ${paths.length === 1 ? 'is' : 'are'} written over, made of another tune or with other options: ${listed(paths)}`,
  hint: 'where both are wanted, give each command a folder of its own with --out',
});

const files = (paths: readonly string[]): string => counted(paths.length, 'file');

/** So many paths are named. */
const MOST_LISTED = 5;

/** One more than that is named, too. */
const isCut = (paths: readonly string[]): boolean => paths.length > MOST_LISTED + 1;

const listed = (paths: readonly string[]): string =>
  isCut(paths)
    ? `${paths.slice(0, MOST_LISTED).join(', ')} and ${paths.length - MOST_LISTED} more`
    : paths.join(', ');
