/** One thing of several that a command does: what comes of it is said, and the others go on. */
import { faultOf } from '../batch/fault.ts';
import type { Input } from '../batch/inputs.ts';
import { atOptions, inFile, type SaidAt } from '../batch/said.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { report } from './console.ts';
import { EXIT, UsageError } from './exit.ts';

/** Reports diagnostics. */
export type Say = (diagnostics: readonly Diagnostic[]) => void;

/**
 * Does it, says why where it, or some of it, cannot be done, and answers the exit status. Where it is done for a tune,
 * what is said names its file, and shows the line that is refused; what is about an option that a fretward.yaml sets
 * names its line there. Throws a UsageError on.
 */
export const attempt = async (
  input: Input | undefined,
  quiet: boolean,
  make: (say: Say) => Promise<void>,
  saidAt: SaidAt = {},
): Promise<number> => {
  let status: number = EXIT.done;
  const say: Say = diagnostics => {
    if (diagnostics.some(({ severity }) => severity === 'error')) status = EXIT.refused;
    report(atOptions(saidAt, input ? inFile(input.name, diagnostics) : diagnostics), quiet);
  };
  try {
    await make(say);
    return status;
  } catch (error) {
    if (error instanceof UsageError) throw error;
    if (!(error instanceof Refusal)) {
      say([faultOf(error)]);
      return EXIT.fault;
    }
    const { withExcerpts } = await import('../batch/excerpt.ts');
    say(input ? withExcerpts(error.diagnostics, input) : error.diagnostics);
    return EXIT.refused;
  }
};
