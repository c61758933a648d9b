/** What is said of an option once, for the parser, help, configuration and lesson files, and completion. */
import * as z from 'zod/mini';

export interface OptionRow {
  /** What is typed: '-f, --frets <low-high>'; a flag has no value. */
  readonly flags: string;
  /** What it does, and the unit of its value. */
  readonly help: string;
  /** What holds where it is not given, in words; undefined for a flag, which is off. */
  readonly default?: string;
  /** May be given several times, or once with commas. */
  readonly list?: true;
  /** `--no-…` takes it back, although it is no flag. */
  readonly revocable?: true;
  readonly schema: () => z.ZodMiniType;
}

/** What some command or file says of an option otherwise than the rest: where its default is another one. */
export type Said = Partial<Pick<OptionRow, 'help' | 'default'>> & {
  /** Of the words that the option takes elsewhere, those that it takes here. */
  readonly words?: readonly string[];
  /** It is about something else here: what a fretward.yaml says of it is for the tune, and not for this. */
  readonly own?: true;
};

/** The row of an option that is on or off. */
export const flag = (flags: string, help: string) => ({ flags, help, schema: () => z.boolean() }) as const;

export const isFlag = ({ flags }: OptionRow): boolean => !flags.includes('<');

/** "--keep-marked". */
export const flagOf = ({ flags }: OptionRow): string => flags.match(/--[a-z-]+/)![0];

/** "keep-marked": the name in configuration and lesson files. */
export const longName = (row: OptionRow): string => flagOf(row).slice(2);

/** Help with the default behind it. */
export const helpOf = (row: Pick<OptionRow, 'help' | 'default'>, said: Said = {}): string => {
  const { help, default: standard } = { ...row, ...said };
  return standard === undefined ? help : `${help} (default: ${standard})`;
};
