/** Options as a configuration file or a command line gives them, and which of several wins. */
import type { OptionName } from '../options/options.ts';

/** Where an option's value comes from. */
export type Origin =
  | { readonly kind: 'command line' }
  | { readonly kind: 'file'; readonly path: string; readonly line: number };

export interface Setting {
  /** As commander would hand it over: text, a list of texts, or true or false for a flag. */
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
export const fromCommandLine = (typed: Readonly<Record<string, unknown>>): Settings =>
  Object.fromEntries(
    Object.entries(typed).map(([name, value]) => [name, { typed: value, origin: COMMAND_LINE }]),
  );

const COMMAND_LINE: Origin = { kind: 'command line' };

/** All settings together; the later win. */
export const together = (...layers: readonly (Settings | undefined)[]): Settings =>
  Object.assign({}, ...layers);

/** The values alone, as commander would hand them over. */
export const typedOf = (settings: Settings): Readonly<Record<string, unknown>> =>
  Object.fromEntries(Object.entries(settings).map(([name, setting]) => [name, setting?.typed]));
