/** One tune after the other: read, choose, arrange, render. A tune that fails never stops the rest. */
import type { Arranged } from '../fingering/arrange.ts';
import { arrangeEditions, leftOut, ofEdition } from '../fingering/editions.ts';
import { afterSaying, type Diagnostic } from '../score/diagnostic.ts';
import { chooseMelody, type Melody, type MelodyChoice } from '../score/melody.ts';
import type { Score } from '../score/model.ts';
import type { Tune } from '../score/tune.ts';
import type { Input } from './inputs.ts';
import { type Job, LIMITS, type Limits, type Printing } from './job.ts';
import { sheetName, sheetsIn } from './names.ts';
import { type Made, numbersOf, type Outcome, type Output, outcomeOf } from './outcome.ts';
import { withoutRepeats } from './said.ts';

/** Makes all outputs of one tune, in memory. */
export const runTune = (input: Input, job: Job): Promise<Outcome> =>
  outcomeOf(input, () => makeOutputs(input, job));

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
