/** What depends on what, as make reads it (GNU make manual, "Rule Syntax" and "Generating Prerequisites Automatically"). */

/** Files, and what they are made of. */
interface Rule {
  readonly targets: readonly string[];
  readonly sources: readonly string[];
}

/** One rule a task. Then an empty rule for each source, so that one that is gone stops nothing. */
export const depfile = (all: readonly Rule[]): string => {
  const made = all.filter(({ targets }) => targets.length > 0);
  const rules = made.map(
    ({ targets, sources }) => `${targets.map(quoted).join(' ')}: ${sources.map(quoted).join(' ')}\n`,
  );
  const sources = [...new Set(made.flatMap(each => each.sources))];
  return [...rules, ...sources.map(file => `${quoted(file)}:\n`)].join('');
};

const quoted = (path: string): string => path.replace(/[\s#:%]/g, '\\$&').replaceAll('$', '$$$$');
