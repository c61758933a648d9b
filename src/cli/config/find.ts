/** Which configuration file is in force, and what it says about a tune. */
import { existsSync } from 'node:fs';
import { dirname, extname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { isFolder } from '../../batch/files.ts';
import type { Input } from '../../batch/inputs.ts';
import { fixedPart } from '../../batch/tunes.ts';
import type { Config, Settings } from './settings.ts';

export const CONFIG_NAME = 'fretward.yaml';

/**
 * The file that `--config` names; else the nearest one beside or above the first tunes that have one; else
 * the one in the working folder. Throws a Refusal where it is wrong.
 */
export const findConfig = async (named: unknown, tunes: readonly string[]): Promise<Config | undefined> => {
  if (named === false) return undefined;
  const path = typeof named === 'string' ? named : placesOf(tunes).find(each => existsSync(each));
  if (path === undefined) return undefined;
  const { readConfig } = await import('./file.ts');
  return readConfig(path);
};

const placesOf = (tunes: readonly string[]): readonly string[] =>
  [...new Set([...tunes.flatMap(foldersAbove), '.'])].map(each => join(each, CONFIG_NAME));

/** The folder in which named tunes lie, then those above it up to the working folder; elsewhere it alone. */
const foldersAbove = (named: string): readonly string[] => {
  const start = isFolder(named) ? named : fixedPart(named);
  const folder = isFolder(start) ? start : dirname(start);
  const steps = relative('.', folder).split(sep);
  if (steps[0] === '..' || isAbsolute(steps.join(sep))) return [folder];
  return steps.map((_, index) => join(...steps.slice(0, steps.length - index)));
};

/** What the file says of a tune alone; undefined where it says nothing. */
export const settingsFor = (
  config: Config | undefined,
  { path }: Pick<Input, 'path'>,
): Settings | undefined =>
  config === undefined || path === undefined ? undefined : entryOf(config, pathFrom(config, path));

const pathFrom = (config: Config, path: string): string =>
  relative(dirname(resolve(config.path)), resolve(path))
    .split(sep)
    .join('/');

const entryOf = ({ tunes }: Config, name: string): Settings | undefined =>
  tunes.get(name) ?? tunes.get(name.slice(0, name.length - extname(name).length));
