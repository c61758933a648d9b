/** What somebody may have meant who typed something that there is not. */
import { closestMatch } from 'leven';

/** The name of the same letters, or the nearest; undefined where none is near enough to be meant. */
export const nearest = (typed: string, names: readonly string[]): string | undefined => {
  const word = typed.toLowerCase();
  const maxDistance = Math.max(1, Math.floor(word.length / 3));
  return names.find(name => sorted(name) === sorted(word)) ?? closestMatch(word, [...names], { maxDistance });
};

const sorted = (word: string): string => [...word].sort().join('');
