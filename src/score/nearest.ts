/** What somebody may have meant who typed something that there is not. */
import { closestMatch } from 'leven';

/** The name of the same letters, or the nearest, whatever their case; undefined where none is near enough to be meant. */
export const nearest = (typed: string, names: readonly string[]): string | undefined => {
  const word = typed.toLowerCase();
  const words = names.map(name => name.toLowerCase());
  const maxDistance = Math.max(1, Math.floor(word.length / 3));
  const found =
    words.find(each => sorted(each) === sorted(word)) ?? closestMatch(word, words, { maxDistance });
  return found === undefined ? undefined : names[words.indexOf(found)];
};

const sorted = (word: string): string => [...word].sort().join('');
