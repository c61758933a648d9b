/** What is done with what a tune came to: its files are written, listed, or compared with those that are there. */
import { join } from 'node:path';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { Task } from './batch.ts';
import { compare } from './compare.ts';
import { removeQuietly, writeFiles } from './files.ts';
import type { Memo, Memory } from './memory.ts';
import { hashOf } from './plain.ts';
import type { Result, TuneReport } from './report.ts';
import type { EditionNumbers, Outcome } from './run.ts';

/** `write` makes files; `list` says which it would write; `compare` says which are not as they should be. */
export type Mode = 'write' | 'list' | 'compare';

/** What a task came to: it was known, it was made, or its input could not be read. */
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
  /** Below the output folder. */
  readonly names?: readonly string[];
  readonly editions?: readonly EditionNumbers[];
}

/** Refused for what the machine is like, and not for what the tune is: worth another try. */
const PASSING: ReadonlySet<string> = new Set(['cannot-read', 'cannot-write', 'png-unavailable']);

/** Concludes the tasks of a run, one after the other. */
export class Concluder {
  readonly #memory: Memory;
  readonly #folder: string;
  readonly #mode: Mode;
  readonly #claimed = new Map<string, string>();

  constructor(memory: Memory, { folder, mode }: { readonly folder: string; readonly mode: Mode }) {
    this.#memory = memory;
    this.#folder = folder;
    this.#mode = mode;
  }

  conclude(task: Task, done: Done): TuneReport {
    const { result, diagnostics, names = [], editions = [] } = this.#attempt(task, done);
    return {
      kind: 'tune',
      file: task.input.name,
      result,
      fits: editions.length > 0 ? editions.every(each => each.outside === 0) : undefined,
      outputs: names.map(name => join(this.#folder, name)),
      editions,
      diagnostics,
      milliseconds: done.kind === 'made' ? Math.round(done.milliseconds * 10) / 10 : 0,
    };
  }

  #attempt(task: Task, done: Done): Conclusion {
    try {
      if (done.kind === 'unread') return { result: 'refused', diagnostics: done.diagnostics };
      return done.kind === 'known' ? this.#known(task, done.memo) : this.#made(task, done);
    } catch (error) {
      if (error instanceof Refusal) return { result: 'refused', diagnostics: error.diagnostics };
      throw error;
    }
  }

  #known({ input }: Task, { kind, file, outputs, editions, ...memo }: Memo): Conclusion {
    const names = outputs.map(({ name }) => name);
    this.#claim(input.name, names);
    // The tune may have been called by another path then.
    const diagnostics = memo.diagnostics.map(each =>
      each.place?.file === file ? { ...each, place: { ...each.place, file: input.name } } : each,
    );
    return { result: kind === 'refused' ? 'refused' : 'up-to-date', diagnostics, names, editions };
  }

  #made(task: Task, { outcome, input }: Extract<Done, { readonly kind: 'made' }>): Conclusion {
    const { diagnostics } = outcome;
    if (outcome.kind === 'fault') return { result: 'fault', diagnostics };
    if (outcome.kind === 'refused') {
      if (!diagnostics.some(each => PASSING.has(each.code))) this.#remember(task, outcome, input);
      return { result: 'refused', diagnostics };
    }
    const { editions, outputs } = outcome;
    const names = outputs.map(({ name }) => name);
    this.#claim(task.input.name, names);
    const arranged = { names, editions };
    switch (this.#mode) {
      case 'write':
        this.#write(task, outcome, input);
        return { result: 'written', diagnostics, ...arranged };
      case 'list':
        return { result: 'would-write', diagnostics, ...arranged };
      case 'compare': {
        const faults = compare(outputs, this.#folder);
        const result = faults.some(each => each.code === 'output-missing') ? 'missing' : 'stale';
        return {
          result: faults.length > 0 ? result : 'up-to-date',
          diagnostics: [...diagnostics, ...faults],
          ...arranged,
        };
      }
    }
  }

  /** Two tunes must not write the same file. Throws a Refusal. */
  #claim(file: string, names: readonly string[]): void {
    const others = names.map(name => this.#claimed.get(name));
    const other = others.find(each => each !== undefined && each !== file);
    if (other !== undefined) throw sameOutput(file, other);
    for (const name of names) this.#claimed.set(name, file);
  }

  #write(task: Task, outcome: Arranged, input: string): void {
    writeFiles(outcome.outputs.map(({ name, content }) => ({ path: join(this.#folder, name), content })));
    for (const name of this.#remember(task, outcome, input)) removeQuietly(join(this.#folder, name));
  }

  /** Answers names of files that the tune had and has no more. */
  #remember(task: Task, outcome: Exclude<Outcome, { kind: 'fault' }>, input: string): readonly string[] {
    const { kind, diagnostics } = outcome;
    const { outputs = [], editions = [] } = kind === 'arranged' ? outcome : {};
    const made = outputs.map(({ name, content }) => ({
      name,
      size: Buffer.byteLength(content),
      hash: hashOf(content),
    }));
    return this.#memory.remember(task.input.stem, task.jobHash, {
      file: task.input.name,
      input,
      kind,
      outputs: made,
      diagnostics,
      editions,
    });
  }
}

const sameOutput = (file: string, other: string): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'same-output',
    message: `its sheets would overwrite those of ${other}`,
    hint: 'rename one of the two files, or write them to different folders',
    place: { file },
  });
