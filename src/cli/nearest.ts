/** What somebody may have meant who typed something that there is not. */
import { closestMatch } from 'leven';

/** The nearest of some names; undefined where none is near enough to be meant. */
export const nearest = (typed: string, names: readonly string[]): string | undefined =>
  closestMatch(typed.toLowerCase(), [...names], { maxDistance: Math.max(2, Math.floor(typed.length / 3)) });
