/** `fretward codes`: what the codes of warnings and errors mean. */

import { nearest } from '../../score/nearest.ts';
import { shortList } from '../../score/numbers.ts';
import { CODES, type CodeRow } from '../codes.ts';
import { print, printJson } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT, UsageError } from '../exit.ts';
import { checkOptions } from '../options/check.ts';
import type { OptionName } from '../options/options.ts';
import { table } from '../table.ts';
import { columnsOf, wrapped } from '../width.ts';

const OPTION_NAMES = ['json'] as const satisfies readonly OptionName[];

const EXAMPLES = `  fretward codes
      all codes, and what they say
  fretward codes note-outside-window
      one code: what it says, why it comes up, and what to do
  fretward codes --json
      all of it, as JSON`;

export const define = defined({
  argument: ['[code...]', 'codes as they stand in brackets after a message'],
  options: OPTION_NAMES,
  examples: EXAMPLES,
});

export const run = async (
  asked: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const { json } = checkOptions(typed, OPTION_NAMES);
  const rows = asked.length > 0 ? asked.map(named) : CODES;
  if (json) printJson(rows);
  else print(asked.length > 0 ? rows.map(inFull).join('\n') : overview(rows));
  return EXIT.done;
};

const named = (code: string): CodeRow => {
  const row = CODES.find(each => each.code === code);
  if (row) return row;
  const meant = nearest(
    code,
    CODES.map(each => each.code),
  );
  const alike = CODES.filter(each => each.code.includes(code)).map(each => each.code);
  const [first = meant, ...others] = alike;
  const hint = first === undefined ? 'fretward codes lists them' : `is ${first} meant?`;
  throw new UsageError(
    `there is no code "${code}"`,
    others.length > 0 ? `there are ${shortList(alike)}` : hint,
  );
};

const inFull = ({ code, severity, what, why, whatToDo }: CodeRow): string =>
  wrapped(
    `${code} (${severity})\n  what: ${what}\n  why: ${why}\n  what to do: ${whatToDo}\n`,
    columnsOf(process.stdout),
  );

const overview = (rows: readonly CodeRow[]): string =>
  table(
    [
      { title: 'code', align: 'left', cell: row => row.code },
      { title: 'kind', align: 'left', cell: row => row.severity },
      { title: 'what', align: 'left', flows: true, cell: row => row.what },
    ],
    rows,
  );
