/**
 * What `fretward arrange` is asked for: options from the command line and a configuration file, the
 * tunes, where outputs go, and the job that each tune is.
 */
import type { Input } from '../batch/inputs.ts';
import type { Job } from '../batch/job.ts';
import type { SaidAt } from '../batch/said.ts';
import { choiceOf, editionsOf, ingredientsOf, limitsOf } from './asked.ts';
import { typedOf } from './config/settings.ts';
import { UsageError } from './exit.ts';
import { blaming, type InForce, inForce } from './in-force.ts';
import { RUN_NAMES } from './options/batch.ts';
import { ARRANGING, OPTIONS, type OptionName, type Options, PRINTING, READING } from './options/options.ts';
import { flagOf } from './options/row.ts';
import { type Destination, destinationOf, printingOf } from './output.ts';
import { refuseContradictions } from './run/contradictions.ts';
import { tunesNamed } from './tunes.ts';

export const REQUEST_NAMES = [
  ...ARRANGING,
  ...PRINTING,
  ...RUN_NAMES,
  ...READING,
] as const satisfies readonly OptionName[];

type RequestOptions = Options<(typeof REQUEST_NAMES)[number]>;

export interface Request {
  /** In force for all tunes. */
  readonly options: RequestOptions;
  readonly destination: Destination;
  readonly inputs: readonly Input[];
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
  const asked = await inForce({ tunes, typed, names: REQUEST_NAMES });
  const { config, options } = asked;
  const destination = await blaming(asked.settings, () => destinationOf(options));
  refuseMixtures(options, destination, tunes);
  const except = destination.kind === 'folder' ? destination.path : undefined;
  const inputs = await tunesNamed(tunes, { except });
  if (destination.kind === 'single' && inputs.length > 1) {
    throw new UsageError(
      `--out - takes a single sheet, and ${inputs.length} tunes are named`,
      'name one of them, or use --out <folder>',
    );
  }
  return {
    options,
    destination,
    inputs,
    jobFor: jobs(asked, destination),
    saidAt: asked.saidAt,
    ingredients: [...(config ? [config.path] : []), ...ingredientsOf(options)],
  };
};

/** Makes jobs; tunes for which the same is asked share one. */
const jobs = (
  { settingsFor, optionsFor }: InForce<(typeof REQUEST_NAMES)[number]>,
  destination: Destination,
): ((input: Input) => Promise<Job>) => {
  const made = new Map<string, Promise<Job>>();
  return input => {
    const own = settingsFor(input);
    const key = JSON.stringify(typedOf(own));
    const job = made.get(key) ?? blaming(own, () => jobOf(optionsFor(input), destination));
    made.set(key, job);
    return job;
  };
};

const jobOf = async (options: RequestOptions, destination: Destination): Promise<Job> => {
  // What a file says of one tune may not go where all tunes go.
  destinationOf(options);
  return {
    kind: 'tune',
    choice: choiceOf(options),
    limits: limitsOf(options),
    ...editionsOf(options),
    ...(await printingOf(options, destination)),
  };
};

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
