/** One tune after the other: read, choose, arrange, render. A tune that fails never stops the rest. */
import type { Format, SheetStyle } from '../emit/formats.ts';
import type { SheetName } from '../engrave/options.ts';
import type { Arranged } from '../fingering/arrange.ts';
import { type Difficulty, difficultyData, difficultyOf } from '../fingering/difficulty.ts';
import { arrangeEditions, type EditionsAsked, leftOut, ofEdition } from '../fingering/editions.ts';
import type { Solved } from '../fingering/problem.ts';
import { afterSaying, type Diagnostic, Refusal } from '../score/diagnostic.ts';
import { chooseMelody, type Melody, type MelodyChoice } from '../score/melody.ts';
import type { Score } from '../score/model.ts';
import type { Tune } from '../score/tune.ts';
import type { Input } from './inputs.ts';
import { sheetName, sheetsIn } from './names.ts';
import { inFile, withoutRepeats } from './said.ts';

/** Which sheets in which formats, and how they look. */
export interface Printing {
  readonly formats: readonly Format[];
  readonly sheets: readonly SheetName[];
  readonly style: SheetStyle;
}

/** What a tune may hold at most; more is refused before it costs time and memory. */
export interface Limits {
  /** Bytes of a file, and of the XML in it. */
  readonly maxBytes: number;
  /** Notes of all parts together. */
  readonly maxNotes: number;
}

export const LIMITS: Limits = { maxBytes: 64 * 2 ** 20, maxNotes: 500_000 };

/** What is to be made of each tune. */
export interface Job extends EditionsAsked, Printing {
  readonly kind: 'tune';
  readonly choice: MelodyChoice;
  readonly limits: Limits;
}

/** How hard an edition is. */
export interface EditionNumbers extends Difficulty {
  readonly instrument: string;
}

/** A file's worth of output, named below the output folder. */
export interface Output {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/** What became of a tune. Diagnostics carry the input's name as file. */
export type Outcome =
  | {
      readonly kind: 'arranged';
      readonly outputs: readonly Output[];
      readonly editions: readonly EditionNumbers[];
      /** Instruments whose editions could not be made. */
      readonly leftOut: readonly string[];
      readonly diagnostics: readonly Diagnostic[];
    }
  | { readonly kind: 'refused'; readonly diagnostics: readonly Diagnostic[] }
  | { readonly kind: 'fault'; readonly diagnostics: readonly Diagnostic[] };

/** Makes all outputs of one tune, in memory. */
export const runTune = (input: Input, job: Job): Promise<Outcome> =>
  outcomeOf(input, () => makeOutputs(input, job));

/** What is made of an input when all goes well. */
export type Made = Omit<Extract<Outcome, { readonly kind: 'arranged' }>, 'kind'>;

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

/** An unexpected exception, as a diagnostic: it is our mistake, and says so. */
export const faultOf = (error: unknown): Diagnostic => ({
  severity: 'error',
  code: 'fault',
  message: `fretward made a mistake of its own: ${error instanceof Error ? error.message : String(error)}`,
  hint: 'please report it together with the tune and the command',
});

const makeOutputs = async (input: Input, job: Job): Promise<Made> => {
  const { tune, diagnostics: reading } = await loadTune(input, job.choice, job.limits);
  const arranged = await afterSaying(reading, () => arrangeEditions(tune, job));
  const { tune: moved, editions, refused, diagnostics: together } = arranged;
  const said = [...reading, ...together];
  const several = job.instruments.length > 1;
  const rendered = await renderEditions(moved, editions, input.stem, job, { said, several });
  return {
    outputs: rendered.outputs,
    editions: editions.map(numbersOf),
    leftOut: refused.map(({ instrument }) => instrument.id),
    diagnostics: [...said, ...leftOut(refused), ...rendered.diagnostics],
  };
};

interface Saying {
  readonly said?: readonly Diagnostic[];
  readonly several?: boolean;
}

/**
 * All sheets of all editions of a tune in all formats, named after `stem`; what there is to say about
 * each edition, and about its sheets, is said once. `said` is what has been said about the tune;
 * of `several` editions, each says which one it is.
 */
export const renderEditions = async (
  tune: Tune,
  editions: readonly Pick<Arranged, 'arrangement' | 'diagnostics'>[],
  stem: string,
  { formats, sheets, style }: Printing,
  { said = [], several = editions.length > 1 }: Saying = {},
): Promise<{ readonly outputs: readonly Output[]; readonly diagnostics: readonly Diagnostic[] }> => {
  const outputs: Output[] = [];
  const diagnostics: Diagnostic[] = [];
  for (const { arrangement, diagnostics: own } of editions) {
    const { id } = arrangement.instrument;
    diagnostics.push(...(several ? own.map(each => ofEdition(each, id)) : own));
    for (const format of formats) {
      for (const sheet of sheetsIn(format, sheets)) {
        const rendered = await format.render(tune, arrangement, sheet, style, [...said, ...own]);
        diagnostics.push(...rendered.diagnostics);
        rendered.pages.forEach((content, index) => {
          outputs.push({ name: sheetName(stem, id, sheet, format, index + 1), content });
        });
      }
    }
  }
  return { outputs, diagnostics: withoutRepeats(diagnostics) };
};

/** How hard an edition is, by its arrangement. */
export const numbersOf = (solved: Solved): EditionNumbers => {
  const { comfortableReach: _, measures: __, hardest: ___, ...all } = difficultyOf(solved, 0);
  return { instrument: solved.problem.hand.instrument.id, ...difficultyData(all) };
};

/** Reads an input and chooses its melody. Throws a Refusal. */
export const loadTune = async (
  input: Input,
  choice: MelodyChoice,
  limits: Limits = LIMITS,
): Promise<Melody & { readonly score: Score }> => {
  const { readScore } = await import('../read/read.ts');
  const { score, diagnostics } = readScore(input.load(limits.maxBytes), limits);
  const melody = chooseMelody(score, choice);
  return { score, tune: melody.tune, diagnostics: [...diagnostics, ...melody.diagnostics] };
};
