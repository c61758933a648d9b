/** The tunes of a run: what the arguments name, globs spelt out. */
import { existsSync } from 'node:fs';
import { dirname, relative, resolve } from 'node:path';
import { Refusal } from '../score/diagnostic.ts';
import { isFolder } from './files.ts';
import { fileInput, findInputs, type Input, refusing, type Search, searched } from './inputs.ts';
import { isTuneFile, isWithin } from './paths.ts';

const GLOB = /[*?[\]{}]/;

/**
 * Like `findInputs`, for arguments that may be globs; a file that has a glob's name is that file. What two
 * arguments name is taken once, unless its outputs lie in two places.
 */
export const findTunes = async (args: readonly string[], search: Search = {}): Promise<readonly Input[]> => {
  const found: Input[] = [];
  for (const arg of args) {
    const spelt = isGlob(arg);
    const well = { ...search, isMade: await madeIn(spelt ? fixedPart(arg) : arg, search) };
    found.push(...(spelt ? await matching(arg, well) : findInputs([arg], well)));
  }
  return [...new Map(found.map(input => [placesOf(input), input])).values()];
};

/** Whether an argument is a glob; one that is the name of a file is that file. */
export const isGlob = (arg: string): boolean => GLOB.test(arg) && !existsSync(arg);

/** Where outputs lie among tunes, or above them: what is an output of an earlier run. */
const madeIn = async (folder: string, { except }: Search): Promise<Search['isMade']> => {
  if (except === undefined || !isFolder(folder) || !isWithin(folder, except)) return undefined;
  const { filesMade } = await import('./memory.ts');
  const made = filesMade(except);
  return path => made.has(relative(except, path));
};

/** Where a tune lies and where its outputs go. */
const placesOf = ({ name, path, stem }: Input): string =>
  `${path === undefined ? name : resolve(path)}\n${stem}`;

/** The tunes that a glob matches. Their outputs lie as they do below its part without wildcards. */
const matching = async (glob: string, search: Search): Promise<readonly Input[]> => {
  const { globSync } = await import('tinyglobby');
  const base = fixedPart(glob);
  const paths = globSync(glob, { expandDirectories: false })
    .filter(isTuneFile)
    .filter(searched(base, search))
    .sort();
  if (paths.length === 0) return [refusing(glob, () => noMatch(glob, 'MusicXML file'))];
  return paths.map(path => fileInput(path, relative(base, path)));
};

/** The part of a path before its first wildcard. */
export const fixedPart = (glob: string): string => {
  let base = glob;
  while (GLOB.test(base)) base = dirname(base);
  return base;
};

/** The refusal of a glob that matches nothing; `what` is what there should be. */
export const noMatch = (glob: string, what: string): Refusal =>
  new Refusal({
    severity: 'error',
    code: 'no-match',
    message: `no ${what} has a name like this`,
    hint: '* stands for any letters, ** for any folders; quote it, so that the shell leaves it alone',
    place: { file: glob },
  });
