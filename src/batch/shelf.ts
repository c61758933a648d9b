/**
 * What an output folder holds of one tune, or of one lesson: who made which file, and which files nobody
 * makes any more.
 *
 * Several commands may fill a folder. Those that ask for different files live side by side. One that asks
 * for a file that another one asked for takes that one's place: it is the same command, asked differently. What
 * the other one made beyond it is left over, until the other one comes again.
 */
import type { Diagnostic } from '../score/diagnostic.ts';
import { firstPage } from './names.ts';
import type { EditionNumbers } from './outcome.ts';

/** A file that was written. */
export interface FileMade {
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
  /** Path from the output folder of the file that it was asked for by; undefined for standard input. */
  readonly source: string | undefined;
  /** Hash of the input's bytes. */
  readonly input: string;
  readonly kind: 'arranged' | 'refused';
  /** Names of the files that were asked for, of each its first page, whether they could be made or not. */
  readonly asked: readonly string[];
  readonly outputs: readonly FileMade[];
  readonly diagnostics: readonly Diagnostic[];
  readonly editions: readonly EditionNumbers[];
  /** Instruments whose editions could not be made. */
  readonly leftOut: readonly string[];
}

export interface Shelf {
  /** By job, and the build that did it. */
  readonly made: Readonly<Record<string, Memo>>;
  /** Names of files that were made, and that what is asked for now does not have. */
  readonly left: readonly string[];
  /** Jobs that others took the place of, and wrote over, the last one last. */
  readonly overwritten: readonly string[];
}

export const EMPTY: Shelf = { made: {}, left: [], overwritten: [] };

/** Files that were made for another source, and written over with other bytes. */
interface Rival {
  readonly source: string | undefined;
  /** Names. */
  readonly files: readonly string[];
}

export interface Put {
  readonly shelf: Shelf;
  /** Names of further pages of a file that now has fewer. */
  readonly surplus: readonly string[];
  /** Names of files that this job made before, and another one wrote in between. */
  readonly inTurn: readonly string[];
  readonly rivals: readonly Rival[];
}

/** So many jobs that were overwritten are known again. */
const MOST_OVERWRITTEN = 8;

/** Puts there what a job made, in the place of all that asked for one of the same files. */
export const put = (shelf: Shelf, job: string, memo: Memo): Put => {
  const now = new Map(memo.outputs.map(({ name, hash }) => [name, hash]));
  const replaced = Object.entries(shelf.made)
    .filter(([key, { asked }]) => key === job || asked.some(name => memo.asked.includes(name)))
    .map(([key, { source, outputs }]) => ({
      key,
      source,
      files: outputs.map(({ name }) => name),
      changed: outputs.flatMap(({ name, hash }) => ((now.get(name) ?? hash) === hash ? [] : [name])),
    }));
  const overwritten = replaced.filter(({ key, changed }) => key !== job && changed.length > 0);
  const lost = overwritten.map(({ key }) => key);
  const isElsewhere = (key: string): boolean => key !== job && !lost.includes(key);
  const before = new Set([...shelf.left, ...replaced.flatMap(({ files }) => files)]);
  const gone = [...before].filter(name => !now.has(name));
  const isSurplus = (name: string): boolean => now.has(firstPage(name));
  return {
    shelf: {
      made: {
        ...Object.fromEntries(Object.entries(shelf.made).filter(([key]) => isElsewhere(key))),
        [job]: memo,
      },
      left: gone.filter(name => !isSurplus(name)),
      overwritten: [...shelf.overwritten.filter(isElsewhere), ...lost].slice(-MOST_OVERWRITTEN),
    },
    surplus: gone.filter(isSurplus),
    inTurn: shelf.overwritten.includes(job) ? overwritten.flatMap(({ changed }) => changed) : [],
    rivals: replaced
      .filter(({ source, changed }) => source !== memo.source && changed.length > 0)
      .map(({ source, changed }) => ({ source, files: changed })),
  };
};

/** Whether it is known that a job's files are asked for by that source. */
export const isClaimed = ({ made, left }: Shelf, job: string, source: string | undefined): boolean => {
  const memo = made[job];
  return memo?.source === source && !memo?.outputs.some(({ name }) => left.includes(name));
};

/** What a job made is asked for, as it is there: none of it is left over. */
export const claimed = (shelf: Shelf, job: string, source: string | undefined): Shelf => {
  const memo = shelf.made[job];
  if (!memo) return shelf;
  const names = new Set(memo.outputs.map(({ name }) => name));
  return {
    ...shelf,
    made: { ...shelf.made, [job]: { ...memo, source } },
    left: shelf.left.filter(name => !names.has(name)),
  };
};

/** Names of files that nothing makes any more: all of them, once what they were made of is gone. */
export const leftOver = (shelf: Shelf, isThere: (source: string) => boolean): readonly string[] => {
  const sources = Object.values(shelf.made).map(({ source }) => source);
  return sources.some(source => source === undefined || isThere(source)) ? shelf.left : everMade(shelf);
};

/** Names of all files that were made and not taken away. */
export const everMade = ({ made, left }: Shelf): readonly string[] => [
  ...new Set([...left, ...Object.values(made).flatMap(({ outputs }) => outputs.map(({ name }) => name))]),
];
