/** What is done with what a task came to: its files are written, listed, or compared with those that are there. */
import { join, relative, resolve } from 'node:path';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { isAboutRequest } from './blame.ts';
import { Claims } from './claims.ts';
import { compare } from './compare.ts';
import { removeQuietly, writeFiles } from './files.ts';
import type { Memories } from './memory.ts';
import { namesAsked } from './names.ts';
import type { EditionNumbers, Outcome } from './outcome.ts';
import { hashOf } from './plain.ts';
import type { Result, TuneReport } from './report.ts';
import { atOptions } from './said.ts';
import type { Memo } from './shelf.ts';
import type { Mode, Task, Work } from './task.ts';

/** What a task came to: it was known, it was made, or what it is asked by or made of could not be read. */
export type Done =
  | { readonly kind: 'known'; readonly memo: Memo }
  | {
      readonly kind: 'made';
      readonly outcome: Outcome;
      /** Hash of the bytes it was made from. */
      readonly input: string;
      readonly milliseconds: number;
    }
  | { readonly kind: 'unread'; readonly diagnostics: readonly Diagnostic[] };

type Arranged = Extract<Outcome, { readonly kind: 'arranged' }>;

/** What a conclusion adds to a report. */
interface Conclusion {
  readonly result: Result;
  readonly diagnostics: readonly Diagnostic[];
  /** Paths. */
  readonly outputs?: readonly string[];
  readonly editions?: readonly EditionNumbers[];
  readonly leftOut?: readonly string[];
}

/** What the machine is like, and no fault of the tune: worth another try. */
const PASSING: ReadonlySet<string> = new Set(['cannot-read', 'cannot-write', 'png-unavailable']);

/** Whether a tune is refused for what it is: then its earlier sheets are not of it any more. */
const isTheTune = (diagnostics: readonly Diagnostic[]): boolean =>
  !diagnostics.some(({ code }) => PASSING.has(code) || isAboutRequest(code));

/** Concludes the tasks of a run, one after the other. */
export class Concluder {
  readonly #memories: Memories;
  readonly #mode: Mode;
  readonly #claims = new Claims();
  /** Paths of files that something else is written to as well. */
  readonly #contested: string[] = [];

  constructor(memories: Memories, mode: Mode) {
    this.#memories = memories;
    this.#mode = mode;
  }

  get contested(): readonly string[] {
    return this.#contested;
  }

  /** Whether a path is of a file of the tasks that were concluded. */
  hasClaimed(path: string): boolean {
    return this.#claims.has(path);
  }

  conclude(task: Task, done: Done): TuneReport {
    const { result, diagnostics, outputs = [], editions = [], leftOut = [] } = this.#attempt(task, done);
    return {
      kind: task.kind === 'work' ? task.job.kind : 'lesson',
      file: task.name,
      result,
      fits: editions.length > 0 ? editions.every(each => each.outside === 0) : undefined,
      outputs,
      editions,
      leftOut,
      diagnostics: task.kind === 'work' ? atOptions(task.saidAt, diagnostics) : diagnostics,
      milliseconds: done.kind === 'made' ? Math.round(done.milliseconds * 10) / 10 : 0,
    };
  }

  #attempt(task: Task, done: Done): Conclusion {
    try {
      if (task.kind === 'refused') return { result: 'refused', diagnostics: task.diagnostics };
      if (done.kind === 'unread') return { result: 'refused', diagnostics: done.diagnostics };
      return done.kind === 'known' ? this.#known(task, done.memo) : this.#made(task, done);
    } catch (error) {
      if (error instanceof Refusal) return { result: 'refused', diagnostics: error.diagnostics };
      throw error;
    }
  }

  #known(task: Work, { kind, file, editions, leftOut, ...memo }: Memo): Conclusion {
    const { input } = task;
    const outputs = this.#claim(task, memo.outputs);
    if (kind === 'arranged') this.#memories.of(task.folder).confirm(input.stem, task.jobHash, sourceOf(task));
    // The tune may have been called by another path then.
    const diagnostics = memo.diagnostics.map(each =>
      each.place?.file === file ? { ...each, place: { ...each.place, file: input.name } } : each,
    );
    return { result: kind === 'refused' ? 'refused' : 'up-to-date', diagnostics, outputs, editions, leftOut };
  }

  #made(task: Work, { outcome, input }: Extract<Done, { readonly kind: 'made' }>): Conclusion {
    const { diagnostics } = outcome;
    if (outcome.kind === 'fault') return { result: 'fault', diagnostics };
    if (outcome.kind === 'refused') {
      if (isTheTune(diagnostics)) this.#remember(task, outcome, input);
      return { result: 'refused', diagnostics };
    }
    const { editions, leftOut } = outcome;
    const arranged = { outputs: this.#claim(task, outcome.outputs), editions, leftOut };
    switch (this.#mode) {
      case 'write':
        this.#write(task, outcome, input);
        return { result: 'written', diagnostics, ...arranged };
      case 'list':
        this.#remember(task, outcome, input);
        return { result: 'would-write', diagnostics, ...arranged };
      case 'compare': {
        this.#remember(task, outcome, input);
        const faults = compare(outcome.outputs, task.folder);
        const result = faults.some(each => each.code === 'output-missing') ? 'missing' : 'stale';
        return {
          result: faults.length > 0 ? result : 'up-to-date',
          diagnostics: [...diagnostics, ...faults],
          ...arranged,
        };
      }
    }
  }

  /** Answers paths. Two tasks must not write the same file: throws a Refusal. */
  #claim({ name: file, folder }: Work, outputs: readonly { readonly name: string }[]): readonly string[] {
    const paths = outputs.map(({ name }) => join(folder, name));
    this.#claims.claim(file, paths);
    return paths;
  }

  #write(task: Work, outcome: Arranged, input: string): void {
    writeFiles(outcome.outputs.map(({ name, content }) => ({ path: join(task.folder, name), content })));
    for (const name of this.#remember(task, outcome, input)) removeQuietly(join(task.folder, name));
  }

  /** Answers names of pages that there were and are no more. */
  #remember(task: Work, outcome: Exclude<Outcome, { kind: 'fault' }>, input: string): readonly string[] {
    const { kind, diagnostics } = outcome;
    const { outputs = [], editions = [], leftOut = [] } = kind === 'arranged' ? outcome : {};
    const made = outputs.map(({ name, content }) => ({
      name,
      size: Buffer.byteLength(content),
      hash: hashOf(content),
    }));
    const { surplus, inTurn, taken } = this.#memories
      .of(task.folder)
      .remember(task.input.stem, task.jobHash, {
        file: task.input.name,
        source: sourceOf(task),
        input,
        kind,
        asked: namesAsked(task.input.stem, task.job),
        outputs: made,
        diagnostics,
        editions,
        leftOut,
      });
    if (this.#mode !== 'write') return surplus;
    // A lesson has its folder for itself: what changes in turn is the lesson file.
    const contested = new Set([...(task.job.kind === 'tune' ? inTurn : []), ...taken]);
    this.#contested.push(...[...contested].map(name => join(task.folder, name)));
    return surplus;
  }
}

/** The way from the output folder, which stays when both are moved. */
const sourceOf = ({ name, input, folder }: Work): string | undefined =>
  input.path === undefined ? undefined : relative(resolve(folder), resolve(name));
