/**
 * What an output folder holds and what it was made of, in one small file in that folder. It only ever
 * saves work: without it, or with one that is damaged or of another build, all is made again.
 *
 * The file is a line with the hash of the rest, then JSON.
 */
import { readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Diagnostic } from '../score/diagnostic.ts';
import { isFolder, writeFiles } from './files.ts';
import { hashOf } from './plain.ts';
import type { EditionNumbers } from './run.ts';

/** A file that was written. */
export interface Made {
  /** Path below the output folder. */
  readonly name: string;
  /** Bytes. */
  readonly size: number;
  readonly hash: string;
}

/** What became of a tune under a job. */
export interface Memo {
  /** What the tune was called, as its diagnostics do. */
  readonly file: string;
  /** Hash of the input's bytes. */
  readonly input: string;
  readonly kind: 'arranged' | 'refused';
  readonly outputs: readonly Made[];
  readonly diagnostics: readonly Diagnostic[];
  readonly editions: readonly EditionNumbers[];
  /** Instruments whose editions could not be made. */
  readonly leftOut: readonly string[];
}

export interface Memory {
  /** When it was last put on the disk, ms since 1970; what has been written since is not as it remembers. */
  readonly savedAt: number;
  /** What is known of a tune (by the stem of its outputs) under a job (by its hash). */
  readonly recall: (stem: string, job: string) => Memo | undefined;
  /** Remembers, and forgets whatever else claims the same files. Answers files that are no longer made. */
  readonly remember: (stem: string, job: string, memo: Memo) => readonly string[];
  /** Puts it on the disk; a failure is not worth a word. */
  readonly save: () => void;
}

export const MEMORY_FILE = '.fretward-made.json';

type Entries = Record<string, Record<string, Memo>>;

/** Opens the memory of a folder; `build` is what made it, and nothing made by another is believed. */
export const openMemory = (folder: string, build: string): Memory => {
  const path = join(folder, MEMORY_FILE);
  const tunes = load(path, build);
  const changed = new Set<string>();
  return {
    savedAt: timeOf(path),
    recall: (stem, job) => tunes.get(stem)?.[job],
    remember: (stem, job, memo) => {
      const now = new Set(memo.outputs.map(({ name }) => name));
      const others = Object.entries(tunes.get(stem) ?? {});
      const kept = others.filter(
        ([key, { outputs }]) => key !== job && !outputs.some(({ name }) => now.has(name)),
      );
      tunes.set(stem, { ...Object.fromEntries(kept), [job]: memo });
      changed.add(stem);
      const before = others.flatMap(([, { outputs }]) => outputs.map(({ name }) => name));
      return [...new Set(before)].filter(name => !now.has(name) && now.has(firstPage(name)));
    },
    save: () => {
      // Where nothing was written, a folder for it alone would puzzle whoever finds it.
      if (changed.size === 0 || !isFolder(folder)) return;
      // Another run may have written meanwhile, for another share of the tunes.
      const latest = load(path, build);
      for (const stem of changed) latest.set(stem, tunes.get(stem)!);
      const sorted = Object.fromEntries([...latest].sort(([a], [b]) => (a < b ? -1 : 1)));
      try {
        writeFiles([{ path, content: seal(JSON.stringify({ build, tunes: sorted })) }]);
        changed.clear();
      } catch {
        // More work next time.
      }
    },
  };
};

/** The memories of the folders that a run writes to, each opened once. */
export class Memories {
  readonly #build: string;
  readonly #opened = new Map<string, Memory>();

  constructor(build: string) {
    this.#build = build;
  }

  of(folder: string): Memory {
    const memory = this.#opened.get(folder) ?? openMemory(folder, this.#build);
    this.#opened.set(folder, memory);
    return memory;
  }

  save(): void {
    for (const memory of this.#opened.values()) memory.save();
  }
}

/** "tune.ukulele.tab.2.svg" → "tune.ukulele.tab.svg". */
const firstPage = (name: string): string => name.replace(/\.\d+(\.[a-z]+)$/, '$1');

const seal = (json: string): string => `${hashOf(json)}\n${json}\n`;

const timeOf = (path: string): number => {
  try {
    return statSync(path).mtimeMs;
  } catch {
    return 0;
  }
};

const load = (path: string, build: string): Map<string, Record<string, Memo>> => {
  try {
    const text = readFileSync(path, 'utf8');
    const json = text.slice(text.indexOf('\n') + 1, -1);
    if (seal(json) !== text) return new Map();
    const found = JSON.parse(json) as { readonly build: string; readonly tunes: Entries };
    return new Map(found.build === build ? Object.entries(found.tunes) : []);
  } catch {
    return new Map();
  }
};
