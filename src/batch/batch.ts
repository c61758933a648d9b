/**
 * Many tunes and lessons into their folders: what is up to date is left, the rest is made by one thread or
 * several, and written, listed or compared in the order of the tasks, whoever made it.
 */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { Refusal } from '../score/diagnostic.ts';
import { Concluder, type Done } from './conclude.ts';
import { type Maker, makerFor } from './maker.ts';
import { Memories } from './memory.ts';
import { hashOf } from './plain.ts';
import type { TuneReport } from './report.ts';
import type { FileMade, Memo } from './shelf.ts';
import { leftOvers, type Standing } from './standing.ts';
import type { Mode, Task } from './task.ts';

export interface BatchSettings {
  readonly mode: Mode;
  /** Make everything, up to date or not. */
  readonly force: boolean;
  /** Tasks that are worked on at the same time, at most. */
  readonly jobs: number;
  /** The program that makes them: what another one made is out of date. */
  readonly build: string;
  /** Aborted, the run ends after the task at hand. */
  readonly signal: AbortSignal;
}

/** A task's turn in a run. */
export interface Turn {
  readonly report: TuneReport;
  /** Tasks that had to be made so far, this one included, and in all. */
  readonly made: number;
  readonly toMake: number;
}

/** Tasks after which what was done is put on the disk, lest a crash undoes it. */
const SAVED_AFTER = 100;

/** Runs all tasks; their reports come in the order of the tasks. Answers how the folders stand in the end. */
export async function* runBatch(
  tasks: readonly Task[],
  settings: BatchSettings,
): AsyncGenerator<Turn, Standing> {
  const memories = new Memories(settings.build);
  const known = new Map(tasks.map(task => [task, memoOf(task, memories, settings)]));
  const toMake = tasks.filter(task => task.kind === 'work' && !known.get(task)).length;
  const maker = toMake > 0 ? await makerFor(toMake, settings.jobs) : undefined;
  const concluder = new Concluder(memories, settings.mode);
  const writing = settings.mode === 'write';
  let made = 0;
  try {
    const all = inOrder(
      tasks,
      task => begin(task, known.get(task), maker),
      maker?.atOnce ?? 1,
      settings.signal,
    );
    for await (const { task, done } of all) {
      const report = concluder.conclude(task, done);
      const isNew = task.kind === 'work' && done.kind !== 'known';
      if (isNew) made++;
      yield { report, made, toMake };
      if (writing && isNew && made % SAVED_AFTER === 0) memories.save();
    }
    const leftOver = leftOvers(tasks, memories, path => concluder.hasClaimed(path));
    return { leftOver, contested: concluder.contested };
  } finally {
    if (writing) memories.save();
    await maker?.close();
  }
}

/** What is known of a task whose tune is as it was, and whose files are as they were written. */
const memoOf = (task: Task, memories: Memories, { mode, force }: BatchSettings): Memo | undefined => {
  if (task.kind === 'refused' || force) return undefined;
  const { input, job, jobHash, folder } = task;
  const memory = memories.of(folder);
  const memo = memory.recall(input.stem, jobHash);
  const since = mode === 'compare' ? 0 : memory.savedAt;
  try {
    return memo &&
      hashOf(input.load(job.limits.maxBytes)) === memo.input &&
      memo.outputs.every(output => isThere(folder, output, since))
      ? memo
      : undefined;
  } catch {
    return undefined;
  }
};

/** Whether a file is as it was written: of that size, and with those bytes if it was written to since then. */
const isThere = (folder: string, { name, size, hash }: FileMade, since: number): boolean => {
  const path = join(folder, name);
  const stats = statSync(path, { throwIfNoEntry: false });
  if (stats?.size !== size) return false;
  return stats.mtimeMs <= since || hashOf(readFileSync(path)) === hash;
};

/** Starts a task; it never fails, but may come to a refusal or a fault. */
const begin = async (task: Task, memo: Memo | undefined, maker: Maker | undefined): Promise<Done> => {
  if (task.kind === 'refused') return { kind: 'unread', diagnostics: task.diagnostics };
  if (memo) return { kind: 'known', memo };
  const { input, job } = task;
  try {
    const bytes = input.load(job.limits.maxBytes);
    const worked = await maker!.make({ name: input.name, stem: input.stem, bytes, job });
    return { kind: 'made', ...worked, input: hashOf(bytes) };
  } catch (error) {
    if (error instanceof Refusal) return { kind: 'unread', diagnostics: error.diagnostics };
    throw error;
  }
};

interface Ready {
  readonly task: Task;
  readonly done: Done;
}

/** Starts as many tasks at once as is asked for, and answers them in order; ends early when told to. */
async function* inOrder(
  tasks: readonly Task[],
  start: (task: Task) => Promise<Done>,
  atOnce: number,
  signal: AbortSignal,
): AsyncGenerator<Ready> {
  const running: Promise<Ready>[] = [];
  const waiting = tasks[Symbol.iterator]();
  while (!signal.aborted) {
    while (running.length < atOnce) {
      const { value: task, done: none } = waiting.next();
      if (none) break;
      const ready = start(task).then(done => ({ task, done }));
      // A failure is met in its turn, not before.
      ready.catch(() => {});
      running.push(ready);
    }
    const next = running.shift();
    if (!next) return;
    const ready = await unlessAborted(next, signal);
    if (ready) yield ready;
  }
}

/**
 * What a promise comes to, or undefined when the signal comes first. (A race with one long-lived promise
 * would keep the result of every race for as long as that promise lives.)
 */
const unlessAborted = async <T>(promise: Promise<T>, signal: AbortSignal): Promise<T | undefined> => {
  let stop = (): void => {};
  const aborted = new Promise<undefined>(resolve => {
    stop = () => resolve(undefined);
    signal.addEventListener('abort', stop, { once: true });
  });
  try {
    return await Promise.race([promise, aborted]);
  } finally {
    signal.removeEventListener('abort', stop);
  }
};
