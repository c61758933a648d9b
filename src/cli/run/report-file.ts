/** Reports as `--report jsonl` and `--report json` write them, read again. */
import * as z from 'zod/mini';
import { readTextFile } from '../../batch/files.ts';
import type { Summary, TuneReport } from '../../batch/report.ts';
import { Refusal } from '../../score/diagnostic.ts';

/** A report of one run, or of several put together. */
export interface ReportFile {
  readonly path: string;
  readonly tunes: readonly TuneReport[];
  /** What no tune says; undefined where the report ends before its run did. */
  readonly of: Pick<Summary, 'shares' | 'leftOver'> | undefined;
}

/** What must be there to add a report up and to print it; all else is handed on as it is. */
const reportLine = () =>
  z.looseObject({
    kind: z.enum(['tune', 'lesson']),
    file: z.string(),
    result: z.enum(['written', 'up-to-date', 'would-write', 'missing', 'stale', 'refused', 'fault']),
    fits: z.optional(z.boolean()),
    outputs: z.array(z.string()),
    editions: z.array(
      z.looseObject({
        instrument: z.string(),
        notes: z.number(),
        outside: z.number(),
        shifts: z.number(),
        widestReach: z.number(),
        costPerNote: z.number(),
      }),
    ),
    leftOut: z.array(z.string()),
    diagnostics: z.array(z.looseObject({ severity: z.string(), code: z.string() })),
    milliseconds: z.number(),
  });

const summaryLine = () =>
  z.looseObject({
    kind: z.literal('summary'),
    shares: z.array(z.object({ index: z.number(), count: z.number(), all: z.number(), of: z.string() })),
    leftOver: z.array(z.string()),
  });

/** Reads a report, lines or one document; its sums are left, to be made anew. Throws a Refusal that names the line that is none. */
export const readReport = (path: string): ReportFile => {
  const [tune, sum] = [reportLine(), summaryLine()];
  const tunes: TuneReport[] = [];
  let of: ReportFile['of'];
  for (const { data, at } of entriesOf(readTextFile(path))) {
    const isSum = (data as { kind?: unknown } | undefined)?.kind === 'summary';
    const read = (isSum ? sum : tune).safeParse(data);
    if (!read.success) throw notAReport(path, at);
    if (isSum) of = read.data as unknown as Summary;
    else tunes.push(read.data as unknown as TuneReport);
  }
  return { path, tunes, of };
};

interface Entry {
  readonly data: unknown;
  /** Its line. */
  readonly at: number;
}

const entriesOf = (text: string): readonly Entry[] => {
  const whole = parse(text) as { tunes?: unknown; summary?: unknown } | undefined;
  if (Array.isArray(whole?.tunes)) return [...whole.tunes, whole.summary].map(data => ({ data, at: 1 }));
  return text
    .split('\n')
    .flatMap((line, index) => (line.trim() === '' ? [] : [{ data: parse(line), at: index + 1 }]));
};

const parse = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

const notAReport = (file: string, line: number): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'not-a-report',
    message: 'this line is no report on a tune',
    hint: 'give files that --report jsonl or --report json wrote',
    place: { file, line },
  });
