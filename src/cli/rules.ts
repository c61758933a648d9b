/** From the options that steer the fingering to the rules that it obeys. */
import { type Rules, rulesFrom } from '../fingering/rules.ts';
import type { OptionName, Options } from './options.ts';

export const RULE_OPTIONS = ['frets', 'open', 'outside'] as const satisfies readonly OptionName[];

export const rulesOf = (options: Options<(typeof RULE_OPTIONS)[number]>): Rules =>
  rulesFrom({
    ...(options.frets && { windows: options.frets }),
    ...(options.open && { open: options.open }),
    ...(options.outside && { outside: options.outside }),
  });
