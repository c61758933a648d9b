/**
 * Many tunes into one output folder: what is up to date is left, the rest is made by one thread or
 * several, and written, listed or compared in the order of the tunes, whoever made it.
 */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { Refusal } from '../score/diagnostic.ts';
import { Concluder, type Done, type Mode } from './conclude.ts';
import type { Input } from './inputs.ts';
import { type Maker, makerFor } from './maker.ts';
import { type Made, type Memo, type Memory, openMemory } from './memory.ts';
import { hashOf, type PlainJob } from './plain.ts';
import type { TuneReport } from './report.ts';

export interface Task {
  readonly input: Input;
  readonly job: PlainJob;
  /** Of the job: see `jobHash`. */
  readonly jobHash: string;
}

export interface BatchSettings {
  /** Where outputs go. */
  readonly folder: string;
  readonly mode: Mode;
  /** Make everything, up to date or not. */
  readonly force: boolean;
  /** Tunes that are made at the same time, at most. */
  readonly jobs: number;
  /** The program that makes them: what another one made is out of date. */
  readonly build: string;
  /** Aborted, the run ends after the tune at hand. */
  readonly signal: AbortSignal;
}

/** A tune's turn in a run. */
export interface Turn {
  readonly report: TuneReport;
  /** Tunes that had to be made so far, this one included, and in all. */
  readonly made: number;
  readonly toMake: number;
}

/** Tunes after which what was done is put on the disk, lest a crash undoes it. */
const SAVED_AFTER = 100;

/** Runs all tasks; their reports come in the order of the tasks. */
export async function* runBatch(tasks: readonly Task[], settings: BatchSettings): AsyncGenerator<Turn> {
  const memory = openMemory(settings.folder, settings.build);
  const known = new Map(tasks.map(task => [task, memoOf(task, memory, settings)]));
  const toMake = tasks.filter(task => !known.get(task)).length;
  const maker = toMake > 0 ? await makerFor(toMake, settings.jobs) : undefined;
  const concluder = new Concluder(memory, settings);
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
      if (done.kind !== 'known') made++;
      yield { report, made, toMake };
      if (writing && done.kind !== 'known' && made % SAVED_AFTER === 0) memory.save();
    }
  } finally {
    if (writing) memory.save();
    await maker?.close();
  }
}

/** What is known of a task whose input is as it was, and whose files are as they were written. */
const memoOf = (
  { input, job, jobHash }: Task,
  memory: Memory,
  { folder, mode, force }: BatchSettings,
): Memo | undefined => {
  const memo = force ? undefined : memory.recall(input.stem, jobHash);
  try {
    return memo &&
      hashOf(input.load(job.limits.maxBytes)) === memo.input &&
      memo.outputs.every(output => isThere(folder, output, mode === 'compare'))
      ? memo
      : undefined;
  } catch {
    return undefined;
  }
};

/** Whether a file is as it was written: of that size, and, looking closely, with those bytes. */
const isThere = (folder: string, { name, size, hash }: Made, closely: boolean): boolean => {
  const path = join(folder, name);
  if (closely) return hashOf(readFileSync(path)) === hash;
  return statSync(path, { throwIfNoEntry: false })?.size === size;
};

/** Starts a task; it never fails, but may come to a refusal or a fault. */
const begin = async (task: Task, memo: Memo | undefined, maker: Maker | undefined): Promise<Done> => {
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
