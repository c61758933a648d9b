/** Options of a run that do not go together. */
import { UsageError } from '../exit.ts';
import { OPTIONS, type OptionName, type Options } from '../options/options.ts';
import { flagOf } from '../options/row.ts';

/** Refuses to write while only looking. Throws a UsageError. */
export const refuseContradictions = (options: Options<'verify' | 'dryRun' | 'watch' | 'depfile'>): void => {
  const looking = options.verify ? 'verify' : options.dryRun ? 'dryRun' : undefined;
  const doing = (['watch', 'depfile', 'dryRun'] as const).find(name => options[name] && name !== looking);
  if (!looking || !doing) return;
  throw notTogether(looking, doing, `${flagOf(OPTIONS[looking])} writes nothing`);
};

/** What to throw where two options do not go together. */
export const notTogether = (one: OptionName, other: OptionName, hint: string): UsageError =>
  new UsageError(`${flagOf(OPTIONS[one])} and ${flagOf(OPTIONS[other])} do not go together`, hint);
