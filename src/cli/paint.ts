/** Colour on a terminal. What colour says is also said in characters. */
import type { Paint, TextRole } from '../emit/text/row.ts';

/** A painter for standard output: chalk where there is a terminal that wants colour, else the identity. */
export const painter = async (wanted: boolean): Promise<Paint> => {
  if (!wanted || !process.stdout.isTTY || process.env.NO_COLOR) return (_role, text) => text;
  const { default: chalk } = await import('chalk');
  // Only what can be read on white as on black, whatever a terminal makes of "bright" and "bold".
  const styles: Partial<Record<TextRole, (text: string) => string>> = {
    heading: chalk.bold,
    chord: chalk.magenta,
    digit: chalk.bold,
    outside: chalk.red.bold,
    staff: chalk.dim,
  };
  return (role, text) => styles[role]?.(text) ?? text;
};
