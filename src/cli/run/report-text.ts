/** Reports of runs, for readers: a table of tunes or lessons, and the sum. */

import type { EditionNumbers } from '../../batch/outcome.ts';
import { codesOf, type Summary, type TuneReport } from '../../batch/report.ts';
import { groupsBy } from '../../score/groups.ts';
import { counted, mmText, pointsText } from '../../score/numbers.ts';
import { printable } from '../console.ts';
import { type Column, table } from '../table.ts';

/** What a run makes something of, or of one report. */
export type Noun = TuneReport['kind'];

interface Row {
  readonly report: TuneReport;
  readonly edition: EditionNumbers | undefined;
  /** The instrument of an edition that could not be made. */
  readonly leftOut?: string;
}

const number = (pick: (edition: EditionNumbers) => string) => ({
  align: 'right' as const,
  cell: ({ edition }: Row) => (edition ? pick(edition) : ''),
});

const columnsOf = (title: string): readonly Column<Row>[] => [
  { title, align: 'left', cell: ({ report }) => printable(report.file) },
  {
    title: 'result',
    align: 'left',
    cell: ({ report, leftOut }) => (leftOut === undefined ? report.result : 'refused'),
  },
  { title: 'edition', align: 'left', cell: ({ edition, leftOut }) => edition?.instrument ?? leftOut ?? '' },
  { title: 'notes', ...number(each => String(each.notes)) },
  { title: 'outside', ...number(each => String(each.outside)) },
  { title: 'shifts', ...number(each => String(each.shifts)) },
  { title: 'widest reach', ...number(each => mmText(each.widestReach)) },
  { title: 'points a note', ...number(each => pointsText(each.costPerNote)) },
  { title: 'ms', align: 'right', cell: ({ report }) => report.milliseconds.toFixed(0) },
  { title: 'codes', align: 'left', cell: ({ report }) => codesOf(report).join(' ') },
];

/**
 * A row for each edition of each tune or lesson, then the sum. What there is none of is called by the noun.
 */
export const reportText = (reports: readonly TuneReport[], summary: Summary, noun: Noun = 'tune'): string => {
  const byKind = groupsBy(reports, ({ kind }) => kind);
  const counts = [...byKind].map(([kind, { length }]): Count => [length, length === 1 ? kind : `${kind}s`]);
  const all = summaryText(counts.length > 0 ? counts : [[0, `${noun}s`]], summary);
  if (reports.length === 0) return all;
  return `${table(columnsOf([...byKind.keys()].join(' or ')), reports.flatMap(rowsOf))}\n${all}`;
};

/** The editions of a tune, those that could not be made last. */
const rowsOf = (report: TuneReport): readonly Row[] =>
  report.editions.length > 0
    ? [
        ...report.editions.map(edition => ({ report, edition })),
        ...report.leftOut.map(leftOut => ({ report, edition: undefined, leftOut })),
      ]
    : [{ report, edition: undefined }];

/** A number, and what there are so many of. */
type Count = readonly [count: number, what: string];

const summaryText = (
  counts: readonly Count[],
  { fit, doNotFit, refused, incomplete, faults, codes, filesWritten, leftOver, milliseconds }: Summary,
): string => {
  const lines: readonly Count[] = [
    ...counts,
    [fit, 'fit'],
    [doNotFit, 'do not fit: notes lie outside the window'],
    [refused, 'refused'],
    ...(incomplete > 0 ? [[incomplete, 'without one of the editions'] as const] : []),
    ...(faults > 0 ? [[faults, "faults of fretward's"] as const] : []),
    [filesWritten, filesWritten === 1 ? 'file written' : 'files written'],
    ...(leftOver.length > 0 ? [[leftOver.length, 'left over from earlier runs'] as const] : []),
    [milliseconds, 'ms of work'],
    ...Object.entries(codes).map(([code, count]) => [count, `with ${code}`] as const),
  ];
  const width = Math.max(...lines.map(([count]) => String(count).length));
  return lines.map(([count, what]) => `${String(count).padStart(width)} ${what}\n`).join('');
};

/** "12 tunes: 10 written, 2 refused; 3 have notes outside their window" */
export const summaryLine = ({ tunes, results, doNotFit, incomplete }: Summary, noun: Noun): string => {
  const what = Object.entries(results).map(([result, count]) => `${count} ${result.replaceAll('-', ' ')}`);
  const fit = doNotFit > 0 ? `; ${doNotFit} ${doNotFit === 1 ? 'has' : 'have'} notes outside the window` : '';
  const lack = incomplete > 0 ? `; ${incomplete} without one of the editions` : '';
  return `${counted(tunes, noun)}: ${what.join(', ') || 'nothing to do'}${fit}${lack}`;
};
