/** The tunes that words on the command line name. */
import { findInputs, type Input } from '../batch/inputs.ts';
import { isLessonFile } from '../batch/paths.ts';
import { findTunes } from '../batch/tunes.ts';
import { UsageError } from './exit.ts';

/** Finds files, folders and globs. Throws a UsageError for what is no tune by its name. */
export const tunesNamed = (
  words: readonly string[],
  options?: Parameters<typeof findTunes>[1],
): Promise<readonly Input[]> => {
  for (const word of words) refuseOthers(word);
  return findTunes(words, options);
};

/** The one tune that a word names. Throws a UsageError for what is no tune by its name, or several. */
export const oneTune = (word: string): Input => {
  refuseOthers(word);
  const [input, ...others] = findInputs([word]);
  if (!input || others.length > 0) throw new UsageError(`${word} is a folder`, 'name one tune');
  return input;
};

/** Refuses what is no name, and what teachers take for a tune: a lesson file, the address of a tune. */
const refuseOthers = (word: string): void => {
  if (word.trim() === '')
    throw new UsageError('the name of a tune is empty', 'name a MusicXML file or a folder');
  if (isLessonFile(word)) {
    throw new UsageError(
      `${word} is a lesson file, and no tune`,
      `fretward lesson ${word} makes what it says; here, name a MusicXML file`,
    );
  }
  if (/^https?:\/\//i.test(word)) {
    throw new UsageError(`${word} is an address, and no file`, 'save the tune in a file, and name that');
  }
};
