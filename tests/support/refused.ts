/** What the act answers; undefined where it is refused. */
import { Refusal } from '../../src/score/diagnostic.ts';

export const unlessRefused = <T>(act: () => T): T | undefined => {
  try {
    return act();
  } catch (error) {
    if (error instanceof Refusal) return undefined;
    throw error;
  }
};
