/** Exit statuses, in one table, and the errors that lead to them. */
export const EXIT = {
  /** Everything that was asked for was done. */
  done: 0,
  /** Some tune could not be arranged; the others were. */
  refused: 1,
  /** The command was not typed right. */
  usage: 2,
  /** A mistake of fretward's own. */
  fault: 3,
} as const;

/** What each status says, for the man page. */
export const EXIT_MEANINGS: Readonly<Record<number, string>> = {
  [EXIT.done]: 'all was done',
  [EXIT.refused]:
    'some tune, or an edition of it, could not be arranged, or a sheet is missing or out of date; the others were done',
  [EXIT.usage]: 'the command was not typed right, or fretward.yaml is wrong',
  [EXIT.fault]: 'a fault of fretward’s own',
};

/** The command line asks for something that does not go together. */
export class UsageError extends Error {
  readonly hint: string | undefined;

  constructor(message: string, hint?: string) {
    super(message);
    this.name = 'UsageError';
    this.hint = hint;
  }
}
