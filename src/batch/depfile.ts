/** What depends on what, as make reads it (GNU make manual, "Rule Syntax" and "Generating Prerequisites Automatically"). */
import type { TuneReport } from './report.ts';

/** One rule a tune: its files depend on it and on what all depend on. Then an empty rule for each tune, so that one that is gone stops nothing. */
export const depfile = (reports: readonly TuneReport[], common: readonly string[]): string => {
  const made = reports.filter(({ outputs }) => outputs.length > 0);
  const rules = made.map(
    ({ file, outputs }) => `${outputs.map(quoted).join(' ')}: ${[file, ...common].map(quoted).join(' ')}\n`,
  );
  const sources = [...new Set([...made.map(({ file }) => file), ...common])];
  return [...rules, ...sources.map(file => `${quoted(file)}:\n`)].join('');
};

const quoted = (path: string): string => path.replace(/[\s#:%]/g, '\\$&').replaceAll('$', '$$$$');
