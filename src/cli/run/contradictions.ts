/** Options of a run that do not go together. */
import { namesIn } from '../../lesson/table.ts';
import { UsageError } from '../exit.ts';
import { OPTIONS, type OptionName, type Options } from '../options/options.ts';
import { flagOf } from '../options/row.ts';

/** What does not go with looking alone; what would be forced can still be listed. */
const DOING = {
  verify: ['watch', 'depfile', 'dryRun', 'force'],
  dryRun: ['watch', 'depfile'],
} as const;

/** Refuses to write while only looking. Throws a UsageError. */
export const refuseContradictions = (
  options: Options<'verify' | 'dryRun' | 'watch' | 'depfile' | 'force'>,
): void => {
  for (const looking of namesIn(DOING)) {
    const doing = options[looking] && DOING[looking].find(name => options[name]);
    if (!doing) continue;
    const [look, write] = [flagOf(OPTIONS[looking]), flagOf(OPTIONS[doing])];
    throw notTogether(
      looking,
      doing,
      `${look} writes nothing: leave out ${look} to write, or ${write} to look`,
    );
  }
};

/** What to throw where two options do not go together. */
export const notTogether = (one: OptionName, other: OptionName, hint: string): UsageError =>
  new UsageError(`${flagOf(OPTIONS[one])} and ${flagOf(OPTIONS[other])} do not go together`, hint);
