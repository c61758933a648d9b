/**
 * The start-up file: argv → a command. It knows names and help texts; what a command does is loaded
 * when it runs.
 */
import { endOnClosedPipe, say } from './console.ts';
import { EXIT, UsageError } from './exit.ts';
import { program } from './program.ts';

endOnClosedPipe();
try {
  process.exitCode = await program(process.argv.slice(2));
} catch (error) {
  process.exitCode = failed(error);
}

/** Says what went wrong and answers the exit status. */
function failed(error: unknown): number {
  if (error instanceof UsageError) {
    say(`error: ${error.message}`);
    if (error.hint) say(`    ${error.hint}`);
    return EXIT.usage;
  }
  const message = error instanceof Error ? error.message : String(error);
  say(`error: fretward made a mistake of its own: ${message} (fault)`);
  say('    please report it together with the tune and the command');
  return EXIT.fault;
}
