/** What a run tells make: which sheets depend on which files, and, by their times, that they are up to date. */
import { existsSync, statSync, utimesSync } from 'node:fs';
import { depfile } from '../../batch/depfile.ts';
import { readTextFile, writeFiles } from '../../batch/files.ts';
import { isGood, type TuneReport } from '../../batch/report.ts';
import type { Task } from '../../batch/task.ts';
import { type Diagnostic, Refusal } from '../../score/diagnostic.ts';

/** Writes a depfile for tasks and their reports. Answers what is to be said where it cannot be written. */
export const tellMake = (
  path: string,
  tasks: readonly Task[],
  reports: readonly TuneReport[],
): readonly Diagnostic[] => {
  const rules = reports.map((report, index) => {
    const task = tasks[index]!;
    const sources = task.kind === 'work' ? task.sources : [];
    return { name: task.name, targets: report.outputs, sources, whole: isGood(report) };
  });
  for (const { targets, sources, whole } of rules) if (whole) freshen(targets, sources);
  try {
    const before = existsSync(path) ? readTextFile(path, HINT) : '';
    writeFiles([{ path, content: depfile(rules, before) }], HINT);
    return [];
  } catch (error) {
    if (error instanceof Refusal) return error.diagnostics;
    throw error;
  }
};

const HINT = 'the sheets are made; name another file with --depfile';

/**
 * Files that are older than what they are made of, and up to date all the same, since what changed was not what
 * is in it: they get a time just after it, or make would ask for them again and again.
 */
const freshen = (targets: readonly string[], sources: readonly string[]): void => {
  const newest = Math.max(0, ...sources.map(timeOf));
  for (const target of targets) {
    if (timeOf(target) >= newest) continue;
    // Whole milliseconds, which is what comes through: the next one.
    const time = new Date(Math.floor(newest) + 1);
    try {
      utimesSync(target, time, time);
    } catch {
      // Somebody else's file: make asks again.
    }
  }
};

const timeOf = (path: string): number => statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
