/**
 * What went wrong, or was left out, as data. Stages collect diagnostics; only the command line
 * turns them into lines on a terminal and into an exit status.
 */

/** Where something stands in the file that was read. */
export interface Source {
  /** Line in the (unpacked) XML file, 1-based. */
  readonly line: number;
  /** The part's id, as the file gives it. */
  readonly part: string;
  /** The measure's number as printed, not its index. */
  readonly measure: string;
}

/** Where in a file, or in its music, something is the matter; as much of it as is known. */
export interface DiagnosticPlace {
  readonly file?: string;
  /** 1-based. */
  readonly line?: number;
  /** 1-based. */
  readonly column?: number;
  readonly part?: string;
  /** As printed. */
  readonly measure?: string;
  /** In beats of the time signature's lower number, 1-based; may be fractional. */
  readonly beat?: number;
}

/** One thing to tell: an error, a warning or a note. */
export interface Diagnostic {
  readonly severity: 'error' | 'warning' | 'note';
  /** Stable, in kebab case: `no-pitched-notes`. */
  readonly code: string;
  /** What is wrong: one sentence without a full stop. */
  readonly message: string;
  /** What to do about it. */
  readonly hint?: string;
  readonly place?: DiagnosticPlace;
  /** The line of the file that it is about, where there is one. */
  readonly excerpt?: string;
}

/** The one way in which a tune is refused: thrown by stages, caught once for each tune. */
export class Refusal extends Error {
  readonly diagnostics: readonly Diagnostic[];

  constructor(...diagnostics: readonly Diagnostic[]) {
    super(diagnostics.map(each => each.message).join('; '));
    this.name = 'Refusal';
    this.diagnostics = diagnostics;
  }
}

/** Makes something; where that is refused, what has been said before, such as which part was taken, is told with it. */
export const afterSaying = async <T>(said: readonly Diagnostic[], make: () => T | Promise<T>): Promise<T> => {
  try {
    return await make();
  } catch (error) {
    throw error instanceof Refusal ? new Refusal(...said, ...error.diagnostics) : error;
  }
};
