/**
 * What `fretward arrange` is asked for: options from the command line and a configuration file, the
 * tunes, where outputs go, and the job that each tune is.
 */
import { isAbsolute } from 'node:path';
import type { Input } from '../batch/inputs.ts';
import type { Job } from '../batch/run.ts';
import type { SaidAt } from '../batch/said.ts';
import { choiceOf, editionsOf, limitsOf } from './asked.ts';
import { findConfig, settingsFor } from './config/find.ts';
import { type Config, fromCommandLine, type Settings, together, typedOf } from './config/settings.ts';
import { UsageError } from './exit.ts';
import { BATCH_NAMES } from './options/batch.ts';
import { BLAMED } from './options/blame.ts';
import { checkOptions } from './options/check.ts';
import { ARRANGING, LIMITING, OPTIONS, type OptionName, type Options } from './options/options.ts';
import { flagOf } from './options/row.ts';
import { type Destination, destinationOf, OUTPUT_NAMES, printingOf } from './output.ts';
import { refuseContradictions } from './run/contradictions.ts';
import { tunesNamed } from './tunes.ts';

export const REQUEST_NAMES = [
  ...ARRANGING,
  ...OUTPUT_NAMES,
  ...BATCH_NAMES,
  ...LIMITING,
] as const satisfies readonly OptionName[];

type RequestOptions = Options<(typeof REQUEST_NAMES)[number]>;

export interface Request {
  readonly config: Config | undefined;
  /** In force for all tunes. */
  readonly options: RequestOptions;
  readonly destination: Destination;
  readonly inputs: readonly Input[];
  /** What is in force for a tune. */
  readonly settingsFor: (input: Input) => Settings;
  readonly jobFor: (input: Input) => Promise<Job>;
  /** Where the configuration file says it. */
  readonly saidAt: (input: Input) => SaidAt;
  /** Files beside the tune that its sheets are made of. */
  readonly ingredients: readonly string[];
}

/** Reads a request. Throws a UsageError, or a Refusal that tells what is wrong in the configuration file. */
export const readRequest = async (
  tunes: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<Request> => {
  const said = fromCommandLine(typed);
  checkOptions(typed, REQUEST_NAMES);
  const config = await findConfig(typed.config, tunes, REQUEST_NAMES);
  const general = together(config?.general, said);
  const options = checkOptions(typedOf(general), REQUEST_NAMES);
  const destination = destinationOf(options, saidTo(general));
  refuseMixtures(options, destination, tunes);
  const except = destination.kind === 'folder' ? destination.path : undefined;
  const inputs = await tunesNamed(tunes, { except, shard: options.shard });
  const settings = (input: Input): Settings => settingsFor(said, config, input);
  return {
    config,
    options,
    destination,
    inputs,
    settingsFor: settings,
    jobFor: jobs(settings, destination),
    saidAt: input => placesIn(settings(input)),
    ingredients: ingredientsOf(config, options),
  };
};

/** Makes jobs; tunes for which the same is asked share one. */
const jobs = (
  settings: (input: Input) => Settings,
  destination: Destination,
): ((input: Input) => Promise<Job>) => {
  const made = new Map<string, Promise<Job>>();
  return input => {
    const own = settings(input);
    const typed = typedOf(own);
    const key = JSON.stringify(typed);
    const job = made.get(key) ?? jobOf(checkOptions(typed, REQUEST_NAMES), destination, saidTo(own));
    made.set(key, job);
    return job;
  };
};

const jobOf = async (options: RequestOptions, destination: Destination, to: string): Promise<Job> => {
  // What a file says of one tune may not go where all tunes go.
  destinationOf(options, to);
  return {
    kind: 'tune',
    choice: choiceOf(options),
    limits: limitsOf(options),
    ...editionsOf(options),
    ...(await printingOf(options, destination)),
  };
};

/** How the formats were said: "--to", or "to" with its line in the configuration file. */
const saidTo = ({ to }: Settings): string =>
  to?.origin.kind === 'file' ? `${to.origin.path}, line ${to.origin.line}: to:` : '--to';

const placesIn = (settings: Settings): SaidAt =>
  Object.fromEntries(
    Object.entries(BLAMED).flatMap(([code, name]) => {
      const origin = settings[name]?.origin;
      return origin?.kind === 'file' ? [[code, { place: { file: origin.path, line: origin.line } }]] : [];
    }),
  );

/** Options that are about the files in a folder. */
const FOR_FOLDERS = ['force', 'dryRun', 'verify', 'watch', 'report', 'depfile'] as const;

const refuseMixtures = (options: RequestOptions, { kind }: Destination, tunes: readonly string[]): void => {
  const needing = FOR_FOLDERS.find(name => options[name]);
  if (needing && kind !== 'folder') {
    throw new UsageError(
      `${flagOf(OPTIONS[needing])} is about files`,
      'say where they are with --out <folder>',
    );
  }
  refuseContradictions(options);
  const standardInputs = tunes.filter(each => each === '-').length;
  if (standardInputs > 1) throw new UsageError('standard input (-) can be read only once', 'name it once');
  if (standardInputs > 0 && options.watch) {
    throw new UsageError('--watch cannot watch standard input (-)', 'name files or folders');
  }
};

const ingredientsOf = (config: Config | undefined, { font, instrument }: RequestOptions): readonly string[] =>
  [
    config?.path,
    font,
    ...(instrument ?? []).filter(each => isAbsolute(each) || each.endsWith('.json')),
  ].filter(each => each !== undefined);
