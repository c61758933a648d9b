/**
 * The start-up file: argv → a command. It knows names and help texts; what a command does is loaded
 * when it runs.
 */
import { faultOf } from '../batch/fault.ts';
import { Refusal } from '../score/diagnostic.ts';
import { endOnClosedPipe, report, speakJson } from './console.ts';
import { EXIT, UsageError } from './exit.ts';
import { program } from './program.ts';

/** Runs what was typed (argv without node and script) and answers the exit status. */
export const main = async (typed: readonly string[]): Promise<number> => {
  endOnClosedPipe();
  if (typed.includes('--json-errors')) speakJson();
  try {
    return await program(typed);
  } catch (error) {
    return failed(error);
  }
};

/** Says what went wrong and answers the exit status. */
function failed(error: unknown): number {
  if (error instanceof UsageError) {
    report([error.diagnostic], false);
    return EXIT.usage;
  }
  // What is refused before there are tunes to refuse is what was asked for.
  if (error instanceof Refusal) {
    report(error.diagnostics, false);
    return EXIT.usage;
  }
  report([faultOf(error)], false);
  return EXIT.fault;
}
