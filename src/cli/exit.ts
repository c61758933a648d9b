/** Exit statuses, in one table, and the errors that lead to them. */
import type { Diagnostic, DiagnosticPlace } from '../score/diagnostic.ts';

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
    'some tune, or an edition of it, could not be arranged, or a sheet is missing, out of date or left over, or a report is missing; the others were done',
  [EXIT.usage]: 'the command was not typed right, or fretward.yaml is wrong',
  [EXIT.fault]: 'a fault of fretward’s own',
};

/** What a UsageError is about, where its message does not begin with it: an option, by its name in code. */
interface About {
  readonly option?: string;
  /** Where a file sets it. */
  readonly place?: DiagnosticPlace;
}

/** The command line, or a file that stands for it, asks for something that does not go together. */
export class UsageError extends Error {
  readonly hint: string | undefined;
  readonly about: About;

  constructor(message: string, hint?: string, about: About = {}) {
    super(message);
    this.name = 'UsageError';
    this.hint = hint;
    this.about = about;
  }

  get diagnostic(): Diagnostic {
    const { message, hint, about } = this;
    const { place } = about;
    return {
      severity: 'error',
      code: 'usage',
      message,
      ...(hint !== undefined && { hint }),
      ...(place && { place }),
    };
  }
}
