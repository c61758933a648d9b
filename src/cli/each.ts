/** Commands that answer something about each tune: load, answer, print; a tune that fails never stops the rest. */
import { findInputs } from '../batch/inputs.ts';
import { faultOf, loadTune } from '../batch/run.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import { choiceOf } from './choice.ts';
import { print, report } from './console.ts';
import { EXIT } from './exit.ts';
import type { Options } from './options.ts';

/** What a command says about one tune: as data, and as lines for a reader. */
export interface Answer {
  readonly data: unknown;
  readonly text: string;
  readonly diagnostics?: readonly Diagnostic[];
}

/** Answers for every tune, as text or, with `--json`, as one array. Answers the exit status. */
export const answerEach = async (
  tunes: readonly string[],
  options: Options<'part' | 'voice' | 'chords' | 'json' | 'quiet'>,
  answer: (tune: Tune, file: string) => Answer | Promise<Answer>,
): Promise<number> => {
  let status: number = EXIT.done;
  const answers: Answer[] = [];
  for (const input of findInputs(tunes)) {
    const say = (diagnostics: readonly Diagnostic[]): void =>
      report(
        diagnostics.map(each => ({ ...each, place: { file: input.name, ...each.place } })),
        options.quiet ?? false,
      );
    try {
      const { tune, diagnostics } = await loadTune(input, choiceOf(options));
      const said = await answer(tune, input.name);
      say([...diagnostics, ...(said.diagnostics ?? [])]);
      answers.push(said);
    } catch (error) {
      const refused = error instanceof Refusal;
      say(refused ? error.diagnostics : [faultOf(error)]);
      status = Math.max(status, refused ? EXIT.refused : EXIT.fault);
    }
  }
  print(
    options.json
      ? `${JSON.stringify(
          answers.map(each => each.data),
          null,
          2,
        )}\n`
      : answers.map(each => each.text).join('\n'),
  );
  return status;
};
