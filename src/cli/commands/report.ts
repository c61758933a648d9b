/** `fretward report`: reports of several runs as one. */
import { summarise } from '../../batch/report.ts';
import { type Fault, faultsOf, type KnownShare } from '../../batch/shares.ts';
import { type Diagnostic, Refusal } from '../../score/diagnostic.ts';
import { print, printJson, report as tell } from '../console.ts';
import { defined } from '../define.ts';
import { checkOptions } from '../options/check.ts';
import type { OptionName } from '../options/options.ts';
import { type ReportFile, readReport } from '../run/report-file.ts';
import { reportText } from '../run/report-text.ts';
import { statusOf } from '../run/status.ts';

const OPTION_NAMES = ['report'] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward report a.jsonl b.jsonl
      what became of the tunes, or lessons, of two machines, as a table
  fretward report *.jsonl --report json > all.json
      the same as one document`;

const NOTES = `Reports know which share of a run they are of (--share). One that is missing is
named, and the exit status is 1, as it is where a tune was refused or a sheet
was missing; 3 where there was a fault of fretward's own. Reports that would
count tunes twice are refused, with 2.`;

export const define = defined({
  argument: ['<file...>', 'reports that --report jsonl or json wrote'],
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
  const read = files.map(readReport);
  const faults = faultsOf(
    read.flatMap(({ path, of }) => (of?.shares ?? []).map(share => ({ share, holder: path }))),
  );
  const repeated = faults.flatMap(each => (each.kind === 'repeated' ? [inTwo(each)] : []));
  if (repeated.length > 0) throw new Refusal(...repeated);
  const whole = read.flatMap(({ of, tunes }) => (of ? [{ ...of, tunes }] : []));
  const tunes = whole
    .flatMap(each => each.tunes)
    .sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0));
  const summary = summarise(tunes, {
    shares: whole.flatMap(({ shares }) => shares).sort((a, b) => a.index - b.index),
    leftOver: [...new Set(whole.flatMap(({ leftOver }) => leftOver))].sort(),
  });
  if (report === 'text') print(reportText(tunes, summary));
  if (report === 'json') printJson({ tunes, summary });
  if (report === 'jsonl') print([...tunes, summary].map(each => `${JSON.stringify(each)}\n`).join(''));
  const about = [
    ...read.flatMap(each => (each.of ? [] : [cutOff(each)])),
    ...faults.flatMap(each => (each.kind === 'missing' ? [missing(each)] : [])),
  ];
  tell(about, false);
  return statusOf(tunes, about);
};

const cutOff = ({ path }: ReportFile): Diagnostic => ({
  severity: 'error',
  code: 'report-cut-off',
  message: 'the report ends before its run did, and is not counted',
  hint: 'let the run end, or run the same command again',
  place: { file: path },
});

const missing = ({ index, share }: Extract<Fault, { readonly kind: 'missing' }>): Diagnostic => ({
  severity: 'error',
  code: 'share-missing',
  message: `the report of ${nameOf({ ...share, index })} is missing`,
  hint: 'give the reports of all machines, which must have the same files',
});

const inTwo = ({ first, second }: Extract<Fault, { readonly kind: 'repeated' }>): Diagnostic => ({
  severity: 'error',
  code: 'share-repeated',
  message: `${nameOf(second.share)} would be counted twice: ${first.holder} ${
    first.share.count === second.share.count ? 'is of it, too' : `is of ${nameOf(first.share)}`
  }`,
  hint: 'leave one of the two out',
  place: { file: second.holder },
});

/** "share 2/3 (of 7 in all)" */
const nameOf = ({ index, count, all }: KnownShare): string =>
  count === 1 ? `the run of all ${all}` : `share ${index}/${count} (of ${all} in all)`;
