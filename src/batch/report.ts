/** What became of the tunes or lessons of a run, one by one and in sum; plain data, so that reports of several machines add up. */
import type { Diagnostic } from '../score/diagnostic.ts';
import type { EditionNumbers } from './outcome.ts';
import type { KnownShare } from './shares.ts';

/** `would-write`, `missing` and `stale` are said where nothing is written. */
export type Result = 'written' | 'up-to-date' | 'would-write' | 'missing' | 'stale' | 'refused' | 'fault';

/** What became of a tune, or of a lesson. */
export interface TuneReport {
  readonly kind: 'tune' | 'lesson';
  readonly file: string;
  readonly result: Result;
  /** Whether every note of every edition has a place in its window; undefined where nothing was arranged. */
  readonly fits: boolean | undefined;
  /** Paths of the files that are its sheets. */
  readonly outputs: readonly string[];
  readonly editions: readonly EditionNumbers[];
  /** Instruments whose editions could not be made, while others were. */
  readonly leftOut: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
  readonly milliseconds: number;
}

export interface Summary {
  readonly kind: 'summary';
  /** How many there are, lessons counted, too. */
  readonly tunes: number;
  readonly fit: number;
  readonly doNotFit: number;
  readonly refused: number;
  /** Tunes of which some editions could not be made, and others were. */
  readonly incomplete: number;
  readonly faults: number;
  /** Tunes by what became of them; what did not happen is left out. */
  readonly results: Readonly<Partial<Record<Result, number>>>;
  /** Files that were written. */
  readonly filesWritten: number;
  /** Tunes by the code of a diagnostic, in the order of the codes. */
  readonly codes: Readonly<Record<string, number>>;
  /** Work in all, by whatever many threads and machines. */
  readonly milliseconds: number;
  /** The shares that were worked on, of all that there was to do. */
  readonly shares: readonly KnownShare[];
  /** Paths of files of earlier runs that belong to nothing that is made now. */
  readonly leftOver: readonly string[];
}

/** The sum of reports; `of` is what no single one of them says. */
export const summarise = (
  reports: readonly TuneReport[],
  of: Pick<Summary, 'shares' | 'leftOver'>,
): Summary => {
  const count = (test: (report: TuneReport) => boolean): number => reports.filter(test).length;
  return {
    kind: 'summary',
    tunes: reports.length,
    fit: count(each => each.fits === true),
    doNotFit: count(each => each.fits === false),
    refused: count(each => each.result === 'refused'),
    incomplete: count(each => each.leftOut.length > 0),
    faults: count(each => each.result === 'fault'),
    results: tally(reports.map(each => each.result)),
    filesWritten: reports.reduce(
      (sum, { result, outputs }) => sum + (result === 'written' ? outputs.length : 0),
      0,
    ),
    codes: tally(reports.flatMap(codesOf)),
    milliseconds: Math.round(reports.reduce((sum, each) => sum + each.milliseconds, 0)),
    ...of,
  };
};

/** Codes of the warnings and errors of a tune, each once. */
export const codesOf = ({ diagnostics }: TuneReport): readonly string[] => [
  ...new Set(diagnostics.filter(each => each.severity !== 'note').map(each => each.code)),
];

const tally = <T extends string>(words: readonly T[]): Record<T, number> => {
  const counts = {} as Record<T, number>;
  for (const word of [...words].sort()) counts[word] = (counts[word] ?? 0) + 1;
  return counts;
};

/** Whether a run did all that it was asked for. */
export const isGood = ({ result, leftOut }: TuneReport): boolean =>
  leftOut.length === 0 && (result === 'written' || result === 'up-to-date' || result === 'would-write');
