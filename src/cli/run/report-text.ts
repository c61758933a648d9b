/** Reports of runs, for readers: a table of tunes, and the sum. */

import type { EditionNumbers } from '../../batch/outcome.ts';
import { codesOf, type Summary, type TuneReport } from '../../batch/report.ts';
import { counted, mmText, pointsText } from '../../score/numbers.ts';
import { printable } from '../console.ts';
import { type Column, table } from '../table.ts';

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

const COLUMNS: readonly Column<Row>[] = [
  { title: 'tune', align: 'left', cell: ({ report }) => printable(report.file) },
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

/** A row for each edition of each tune, those that could not be made last, then the sum. */
export const reportText = (reports: readonly TuneReport[], summary: Summary): string => {
  const rows = reports.flatMap((report): readonly Row[] =>
    report.editions.length > 0
      ? [
          ...report.editions.map(edition => ({ report, edition })),
          ...report.leftOut.map(leftOut => ({ report, edition: undefined, leftOut })),
        ]
      : [{ report, edition: undefined }],
  );
  return `${rows.length > 0 ? `${table(COLUMNS, rows)}\n` : ''}${summaryText(summary)}`;
};

const summaryText = (summary: Summary): string => {
  const { tunes, fit, doNotFit, refused, incomplete, faults, codes, filesWritten, leftOver, milliseconds } =
    summary;
  const lines = [
    [tunes, tunes === 1 ? 'tune' : 'tunes'],
    [fit, 'fit'],
    [doNotFit, 'do not fit: notes lie outside the window'],
    [refused, 'refused'],
    ...(incomplete > 0 ? [[incomplete, 'without one of the editions']] : []),
    ...(faults > 0 ? [[faults, "faults of fretward's"]] : []),
    [filesWritten, filesWritten === 1 ? 'file written' : 'files written'],
    ...(leftOver.length > 0 ? [[leftOver.length, 'left over from earlier runs']] : []),
    [milliseconds, 'ms of work'],
  ] as const;
  const byCode = Object.entries(codes).map(([code, count]) => [count, `with ${code}`] as const);
  const width = Math.max(...[...lines, ...byCode].map(([count]) => String(count).length));
  return [...lines, ...byCode].map(([count, what]) => `${String(count).padStart(width)} ${what}\n`).join('');
};

/** "12 tunes: 10 written, 2 refused; 3 have notes outside their window" */
export const summaryLine = ({ tunes, results, doNotFit, incomplete }: Summary, noun = 'tune'): string => {
  const what = Object.entries(results).map(([result, count]) => `${count} ${result.replaceAll('-', ' ')}`);
  const fit = doNotFit > 0 ? `; ${doNotFit} ${doNotFit === 1 ? 'has' : 'have'} notes outside the window` : '';
  const lack = incomplete > 0 ? `; ${incomplete} without one of the editions` : '';
  return `${counted(tunes, noun)}: ${what.join(', ') || 'nothing to do'}${fit}${lack}`;
};
