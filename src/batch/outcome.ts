/** What becomes of a tune: what was made of it, or why nothing was. */
import { type Difficulty, difficultyData, difficultyOf } from '../fingering/difficulty.ts';
import type { Solved } from '../fingering/problem.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { faultOf } from './fault.ts';
import type { Input } from './inputs.ts';
import { inFile } from './said.ts';

/** How hard an edition is. */
export interface EditionNumbers extends Difficulty {
  readonly instrument: string;
}

/** A file's worth of output, named below the output folder. */
export interface Output {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** What is made of a tune when all goes well. */
export interface Made {
  readonly outputs: readonly Output[];
  readonly editions: readonly EditionNumbers[];
  /** Instruments whose editions could not be made. */
  readonly leftOut: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

/** What became of a tune. Diagnostics carry the input's name as file. */
export type Outcome =
  | ({ readonly kind: 'arranged' } & Made)
  | { readonly kind: 'refused'; readonly diagnostics: readonly Diagnostic[] }
  | { readonly kind: 'fault'; readonly diagnostics: readonly Diagnostic[] };

/** What making something of an input comes to. */
export const outcomeOf = async (input: Input, make: () => Promise<Made>): Promise<Outcome> => {
  try {
    const made = await make();
    return { kind: 'arranged', ...made, diagnostics: inFile(input.name, made.diagnostics) };
  } catch (error) {
    if (error instanceof Refusal) {
      const { withExcerpts } = await import('./excerpt.ts');
      return { kind: 'refused', diagnostics: inFile(input.name, withExcerpts(error.diagnostics, input)) };
    }
    return { kind: 'fault', diagnostics: inFile(input.name, [faultOf(error)]) };
  }
};

/** How hard an edition is, by its arrangement. */
export const numbersOf = (solved: Solved): EditionNumbers => {
  const { comfortableReach: _, measures: __, hardest: ___, ...all } = difficultyOf(solved, 0);
  return { instrument: solved.problem.hand.instrument.id, ...difficultyData(all) };
};
