/** What the files of a job are called, below its output folder. */
import { type Format, formatNamed } from '../emit/formats.ts';
import type { SheetName } from '../engrave/options.ts';
import type { PlainJob } from './plain.ts';

/** The page for the class, which every lesson has. */
export const INDEX = 'index.html';

/** The name of a page of a sheet, from page 1; or of the whole edition where the format has one file of it. */
export const sheetName = (stem: string, id: string, sheet: SheetName, format: Format, page = 1): string => {
  const kind = format.per === 'sheet' ? `.${sheet}` : '';
  return pageName(`${stem}.${id}${kind}`, format, page);
};

/** The name of a page, from page 1: the first one bears no number. */
export const pageName = (stem: string, { extension }: Pick<Format, 'extension'>, page: number): string =>
  `${stem}${page > 1 ? `.${page}` : ''}.${extension}`;

/** The name of the first page of what a page belongs to: "tune.tab.2.svg" is of "tune.tab.svg". */
export const firstPage = (name: string): string => name.replace(/\.\d+(\.[a-z]+)$/, '$1');

/** The sheets of which a format has files of their own. */
export const sheetsIn = (format: Format, sheets: readonly SheetName[]): readonly SheetName[] =>
  format.per === 'sheet' ? sheets : sheets.slice(0, 1);

/** What is asked for, before it is known what can be made: of each file its first page; of a lesson its page for the class. */
export const namesAsked = (stem: string, job: PlainJob): readonly string[] =>
  job.kind === 'lesson'
    ? [INDEX]
    : job.instruments.flatMap(({ id }) =>
        job.formats
          .map(formatNamed)
          .flatMap(format => sheetsIn(format, job.sheets).map(sheet => sheetName(stem, id, sheet, format))),
      );
