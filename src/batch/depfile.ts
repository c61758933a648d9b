/** What depends on what, as make reads it (GNU make manual, "Rule Syntax" and "Generating Prerequisites Automatically"). */

/** Files, and what they are made of. */
interface Rule {
  /** The first of the sources, which has a rule of its own. */
  readonly name: string;
  readonly targets: readonly string[];
  readonly sources: readonly string[];
  /** Whether these are all the files that were asked for. */
  readonly whole: boolean;
}

/**
 * One rule a task. Then an empty rule for each source, so that one that is gone stops nothing.
 *
 * Where not all could be made, sheets of an earlier run may lie there still, and make is to take them for
 * out of date: what the depfile of that run, `before`, says of them is kept.
 */
export const depfile = (all: readonly Rule[], before = ''): string => {
  const earlier = before.split('\n');
  const rules = all.flatMap(({ name, targets, sources, whole }) => [
    ...(targets.length > 0 ? [rule(targets, sources)] : []),
    ...(whole ? [] : earlier.filter(line => sourcesIn(line).startsWith(`${quoted(name)} `))),
  ]);
  const sources = all.flatMap(each => [each.name, ...each.sources]).map(file => `${quoted(file)}:`);
  return [...new Set([...rules, ...sources])].map(line => `${line}\n`).join('');
};

const rule = (targets: readonly string[], sources: readonly string[]): string =>
  `${targets.map(quoted).join(' ')}: ${sources.map(quoted).join(' ')}`;

/** What follows the colon of a rule that was written here, and a blank. */
const sourcesIn = (line: string): string => `${/[^\\]: (.*)$/.exec(line)?.[1] ?? ''} `;

const quoted = (path: string): string => path.replace(/[\s#:%]/g, '\\$&').replaceAll('$', '$$$$');
