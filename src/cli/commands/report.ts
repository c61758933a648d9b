/** `fretward report`: reports of several runs as one. */
import * as z from 'zod/mini';
import { readTextFile } from '../../batch/files.ts';
import { summarise, type TuneReport } from '../../batch/report.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { print } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT } from '../exit.ts';
import { checkOptions } from '../options/check.ts';
import type { OptionName } from '../options/options.ts';
import { reportText } from '../run/report-text.ts';

const OPTION_NAMES = ['report'] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward report a.jsonl b.jsonl
      what became of the tunes of two machines, as a table
  fretward report *.jsonl --report json > all.json
      the same as one document`;

const NOTES = `It exits with 0 whatever became of the tunes: the exit status of each run has told.`;

export const define = defined({
  argument: ['<file...>', 'reports that fretward arrange --report jsonl or json wrote'],
  options: OPTION_NAMES,
  said: {
    report: {
      help: 'the reports as one: text: a table; json: one document; jsonl: a line each',
      default: 'text',
    },
  },
  notes: NOTES,
  examples: EXAMPLES,
});

export const run = async (
  files: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const { report = 'text' } = checkOptions(typed, OPTION_NAMES);
  const reports = files.flatMap(readReports).sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0));
  const summary = summarise(reports);
  if (report === 'text') print(reportText(reports, summary));
  if (report === 'json') print(`${JSON.stringify({ tunes: reports, summary }, null, 2)}\n`);
  if (report === 'jsonl') print([...reports, summary].map(each => `${JSON.stringify(each)}\n`).join(''));
  return EXIT.done;
};

/** What must be there to add a report up and to print it; all else is handed on as it is. */
const reportLine = () =>
  z.looseObject({
    kind: z.literal('tune'),
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

/** Reads a report, lines or one document; sums are made anew. Throws a Refusal that names the line that is none. */
const readReports = (file: string): readonly TuneReport[] => {
  const line = reportLine();
  const text = readTextFile(file);
  const whole = parse(text) as { tunes?: unknown } | undefined;
  const entries = Array.isArray(whole?.tunes)
    ? whole.tunes.map(data => ({ data: data as unknown, at: 1 }))
    : text
        .split('\n')
        .flatMap((each, index) => (each.trim() === '' ? [] : [{ data: parse(each), at: index + 1 }]));
  return entries.flatMap(({ data, at }) => {
    if ((data as { kind?: unknown } | undefined)?.kind === 'summary') return [];
    const result = line.safeParse(data);
    if (!result.success) throw notAReport(file, at);
    return [result.data as unknown as TuneReport];
  });
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
    hint: 'give files that fretward arrange --report jsonl or --report json wrote',
    place: { file, line },
  });
