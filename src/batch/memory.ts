/**
 * What an output folder holds and what it was made of, in one small file in that folder. It saves work, and
 * it knows which files nobody makes any more (shelf.ts); without it, or with one that is damaged, all is
 * made again and nothing is known to be left over.
 *
 * The file is a line with the hash of the rest, then JSON.
 */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { isFolder, writeFiles } from './files.ts';
import { hashOf } from './plain.ts';
import {
  claimed,
  EMPTY,
  everMade,
  isClaimed,
  leftOver,
  type Memo,
  type Put,
  put,
  type Shelf,
} from './shelf.ts';

export interface Memory {
  /** When it was last put on the disk, ms since 1970; what has been written since is not as it remembers. */
  readonly savedAt: number;
  /** What is known of a tune (by the stem of its outputs) under a job (by its hash). */
  readonly recall: (stem: string, job: string) => Memo | undefined;
  /** Remembers what became of a tune under a job; names what that puts an end to. */
  readonly remember: (stem: string, job: string, memo: Memo) => Remembered;
  /** What it recalls is still asked for, by a file at this path from the folder. */
  readonly confirm: (stem: string, job: string, source: string | undefined) => void;
  /** Names of files that are there, and that nothing makes any more; of one stem, or of all. */
  readonly leftOver: (stem?: string) => readonly string[];
  /** Names of files that are there, and that were made of a stem at any time. */
  readonly everMade: (stem: string) => readonly string[];
  /** Puts it on the disk; a failure is not worth a word. */
  readonly save: () => void;
}

/** What there is to be said where something new is remembered: names of files. */
interface Remembered extends Pick<Put, 'surplus' | 'inTurn'> {
  /** Those that were made for another source, which is still there. */
  readonly taken: readonly string[];
}

export const MEMORY_FILE = '.fretward-made.json';

/** Of the JSON: what is written in another form is not read. */
const VERSION = 2;

interface Content {
  readonly version: number;
  readonly tunes: Readonly<Record<string, Shelf>>;
}

type Change = (shelf: Shelf) => Shelf;

/** Opens the memory of a folder; `build` is what makes things now, and nothing made by another is believed. */
export const openMemory = (folder: string, build: string): Memory => {
  const path = join(folder, MEMORY_FILE);
  const shelves = load(path);
  const changes: (readonly [stem: string, change: Change])[] = [];
  const keyOf = (job: string): string => `${build} ${job}`;
  const shelfOf = (stem: string): Shelf => shelves.get(stem) ?? EMPTY;
  const isThere = (name: string): boolean => existsSync(join(folder, name));
  const apply = (stem: string, change: Change): void => {
    shelves.set(stem, change(shelfOf(stem)));
    changes.push([stem, change]);
  };
  return {
    savedAt: timeOf(path),
    recall: (stem, job) => shelfOf(stem).made[keyOf(job)],
    remember: (stem, job, memo) => {
      const { surplus, inTurn, rivals } = put(shelfOf(stem), keyOf(job), memo);
      apply(stem, shelf => put(shelf, keyOf(job), memo).shelf);
      const alive = rivals.filter(({ source }) => source === undefined || isThere(source));
      return { surplus, inTurn, taken: alive.flatMap(({ files }) => files) };
    },
    confirm: (stem, job, source) => {
      if (isClaimed(shelfOf(stem), keyOf(job), source)) return;
      apply(stem, shelf => claimed(shelf, keyOf(job), source));
    },
    leftOver: stem =>
      [...(stem === undefined ? shelves.values() : [shelfOf(stem)])]
        .flatMap(shelf => leftOver(shelf, isThere))
        .filter(isThere),
    everMade: stem => everMade(shelfOf(stem)).filter(isThere),
    save: () => {
      // Where nothing was written, a folder for it alone would puzzle whoever finds it.
      if (changes.length === 0 || !isFolder(folder)) return;
      // Another run may have written meanwhile: a share of the tunes, or the same ones in other forms.
      const latest = load(path);
      for (const [stem, change] of changes) latest.set(stem, change(latest.get(stem) ?? EMPTY));
      const tunes = Object.fromEntries([...latest].sort(([a], [b]) => (a < b ? -1 : 1)));
      try {
        const content: Content = { version: VERSION, tunes };
        writeFiles([{ path, content: seal(JSON.stringify(content)) }]);
        changes.length = 0;
      } catch {
        // More work next time.
      }
    },
  };
};

/** Names of all files that runs are known to have made in a folder. */
export const filesMade = (folder: string): ReadonlySet<string> =>
  new Set([...load(join(folder, MEMORY_FILE)).values()].flatMap(everMade));

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

const seal = (json: string): string => `${hashOf(json)}\n${json}\n`;

const timeOf = (path: string): number => {
  try {
    return statSync(path).mtimeMs;
  } catch {
    return 0;
  }
};

const load = (path: string): Map<string, Shelf> => {
  try {
    const text = readFileSync(path, 'utf8');
    const json = text.slice(text.indexOf('\n') + 1, -1);
    if (seal(json) !== text) return new Map();
    const { version, tunes } = JSON.parse(json) as Content;
    return new Map(version === VERSION ? Object.entries(tunes) : []);
  } catch {
    return new Map();
  }
};
