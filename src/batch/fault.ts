/** What is fretward's own mistake. */
import type { Diagnostic } from '../score/diagnostic.ts';

/** An unexpected exception, as a diagnostic: it is our mistake, and says so. */
export const faultOf = (error: unknown): Diagnostic => ({
  severity: 'error',
  code: 'fault',
  message: `fretward made a mistake of its own: ${error instanceof Error ? error.message : String(error)}`,
  hint: 'please report it together with the tune and the command',
});
