/** Options as a configuration file or a command line gives them, and which of several wins. */
import { OPTIONS, type OptionName, type OptionRow } from '../options/options.ts';

/** Where an option's value comes from. */
export type Origin =
  | { readonly kind: 'command line' }
  | { readonly kind: 'file'; readonly path: string; readonly line: number };

export interface Setting {
  /** As commander would hand it over: text, a list of texts, or true for a flag. */
  readonly typed: unknown;
  readonly origin: Origin;
}

export type Settings = Readonly<Partial<Record<OptionName, Setting>>>;

/** What a file says for all tunes, and for single ones by their paths from its folder. */
export interface Config {
  readonly path: string;
  readonly general: Settings;
  readonly tunes: ReadonlyMap<string, Settings>;
}

/** The settings that were typed. */
export const fromCommandLine = (typed: Readonly<Record<string, unknown>>): Settings => {
  const given = Object.entries(typed).filter(([name, value]) => !(name === 'color' && value === true));
  return Object.fromEntries(given.map(([name, value]) => [name, { typed: value, origin: COMMAND_LINE }]));
};

const COMMAND_LINE: Origin = { kind: 'command line' };

/** All settings together; the later win. */
export const together = (...layers: readonly (Settings | undefined)[]): Settings =>
  Object.assign({}, ...layers);

/** The values alone, as commander would hand them over. */
export const typedOf = (settings: Settings): Readonly<Record<string, unknown>> =>
  Object.fromEntries(Object.entries(settings).map(([name, setting]) => [name, setting?.typed]));

/** An option's name without hyphens before it: "keep-marked". */
export const longName = (name: OptionName): string => {
  const row: OptionRow = OPTIONS[name];
  return row.flags.match(/--(?:no-)?([a-z-]+)/)![1]!;
};
