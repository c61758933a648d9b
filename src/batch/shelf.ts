/**
 * What an output folder holds of one tune, or of one lesson: who made which file, and which files nobody
 * makes any more.
 *
 * Several commands may fill a folder. Those that ask for different files live side by side. One that asks
 * for a file that another one asked for takes that one's place: it is the same command, asked differently. What
 * the other one made beyond it is left over, until the other one comes again.
 */
import type { Diagnostic } from '../score/diagnostic.ts';
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

export interface Put {
  readonly shelf: Shelf;
  /** Names of further pages of a file that now has fewer. */
  readonly surplus: readonly string[];
  /** Names of files that this job made before, and another one wrote in between. */
  readonly contested: readonly string[];
  /** What was there under such names, made for another source. */
  readonly rivals: readonly Memo[];
}

/** So many jobs that were overwritten are known again. */
const MOST = 8;

/** Puts there what a job made. */
export const put = (shelf: Shelf, job: string, memo: Memo): Put => {
  const others = Object.entries(shelf.made).filter(([key]) => key !== job);
  const replaced = others.filter(([, { asked }]) => asked.some(name => memo.asked.includes(name)));
  const hashes = new Map(memo.outputs.map(({ name, hash }) => [name, hash]));
  const changed = ({ outputs }: Memo): readonly string[] =>
    outputs.flatMap(({ name, hash }) => ((hashes.get(name) ?? hash) === hash ? [] : [name]));
  const overwritten = replaced.filter(([, other]) => changed(other).length > 0);
  const before = [shelf.made[job] ?? [], ...replaced.map(([, other]) => other)].flat();
  const names = before.flatMap(({ outputs }) => outputs.map(({ name }) => name));
  const gone = [...new Set([...shelf.left, ...names])].filter(name => !hashes.has(name));
  const [surplus, left] = parted(gone, name => hashes.has(firstPage(name)));
  const kept = others.filter(each => !overwritten.includes(each));
  const lost = overwritten.map(([key]) => key);
  return {
    shelf: {
      made: { ...Object.fromEntries(kept), [job]: memo },
      left,
      overwritten: [...shelf.overwritten.filter(key => key !== job && !lost.includes(key)), ...lost].slice(
        -MOST,
      ),
    },
    surplus,
    contested: shelf.overwritten.includes(job) ? overwritten.flatMap(([, other]) => changed(other)) : [],
    rivals: before.filter(other => other.source !== memo.source && changed(other).length > 0),
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
export const namesOf = ({ made, left }: Shelf, isThere: (source: string) => boolean): readonly string[] => {
  const memos = Object.values(made);
  const alive = memos.some(({ source }) => source === undefined || isThere(source));
  return alive
    ? left
    : [...new Set([...left, ...memos.flatMap(each => each.outputs.map(({ name }) => name))])];
};

/** "tune.ukulele.tab.2.svg" → "tune.ukulele.tab.svg". */
const firstPage = (name: string): string => name.replace(/\.\d+(\.[a-z]+)$/, '$1');

const parted = <T>(all: readonly T[], test: (each: T) => boolean): readonly [T[], T[]] => [
  all.filter(test),
  all.filter(each => !test(each)),
];
