/** What commands share that answer something about tunes: how answers come out, as text or as JSON. */
import { loadTune } from '../batch/run.ts';
import { withoutControls } from '../emit/text/width.ts';
import type { Arranged } from '../fingering/arrange.ts';
import { arrangeEditions, leftOut } from '../fingering/editions.ts';
import { afterSaying, type Diagnostic } from '../score/diagnostic.ts';
import type { Score } from '../score/model.ts';
import type { Tune } from '../score/tune.ts';
import { choiceOf, editionsOf, limitsOf } from './asked.ts';
import { attempt, type Say } from './attempt.ts';
import { print, printJson } from './console.ts';
import { EXIT } from './exit.ts';
import { blaming, type InForce } from './in-force.ts';
import type { ARRANGING, LIMITING, OptionName, Options } from './options/options.ts';
import { tunesNamed } from './tunes.ts';
import { columnsOf, wrapped } from './width.ts';

/** What a command says about one tune: as data, and as lines for a reader. */
export interface Answer {
  readonly data: unknown;
  readonly text: string;
  readonly diagnostics?: readonly Diagnostic[];
  /** Codes of diagnostics that need not be said, since the answer says it. */
  readonly covers?: readonly string[];
}

/** A tune, and what it was chosen from. */
export interface Loaded {
  readonly file: string;
  /** The start of the names of files that are made of it. */
  readonly stem: string;
  readonly score: Score;
  readonly tune: Tune;
}

/** What a command takes that answers. */
type Answering = 'part' | 'voice' | 'chords' | 'json' | 'quiet' | (typeof LIMITING)[number];

/**
 * Answers for every tune, with the options in force for it, as text or, with `--json`, as one array. Answers the exit
 * status.
 */
export const answerEach = async <Name extends OptionName>(
  tunes: readonly string[],
  asked: InForce<Name | Answering>,
  answer: (loaded: Loaded, options: Options<Name | Answering>) => Answer | Promise<Answer>,
): Promise<number> => {
  const { json, quiet = false } = asked.options;
  let status: number = EXIT.done;
  const answers: Answer[] = [];
  for (const input of await tunesNamed(tunes)) {
    const options = asked.optionsFor(input);
    const make = async (say: Say): Promise<void> => {
      const { diagnostics, ...loaded } = await loadTune(input, choiceOf(options), limitsOf(options));
      const said = await afterSaying(diagnostics, () =>
        answer({ ...loaded, file: input.name, stem: input.stem }, options),
      );
      say([...diagnostics.filter(each => !said.covers?.includes(each.code)), ...(said.diagnostics ?? [])]);
      answers.push(said);
    };
    const done = await blaming(asked.settingsFor(input), () =>
      attempt(input, quiet, make, asked.saidAt(input)),
    );
    status = Math.max(status, done);
  }
  const data = answers.map(each => each.data);
  const texts = answers.map(each => each.text).filter(text => text !== '');
  if (json) printJson(data);
  else print(wrapped(withoutControls(texts.join('\n')), columnsOf(process.stdout)));
  return status;
};

/** Answers for every edition of every tune; data are put together per tune. */
export const answerEditions = <Name extends OptionName>(
  tunes: readonly string[],
  asked: InForce<Name | Answering | (typeof ARRANGING)[number]>,
  answer: (edition: Arranged, title: string) => Answer,
): Promise<number> => {
  // What is typed wrong is said before any tune is read.
  editionsOf(asked.options);
  return answerEach(tunes, asked, ({ tune, file }, options) => {
    const { editions, refused, diagnostics } = arrangeEditions(tune, editionsOf(options));
    const answers = editions.map(edition =>
      answer(edition, `${tune.title ?? file}, ${edition.arrangement.instrument.name}`),
    );
    return {
      data: { file, editions: answers.map(each => each.data) },
      text: answers.map(each => each.text).join('\n'),
      diagnostics: [...diagnostics, ...leftOut(refused), ...editions.flatMap(each => each.diagnostics)],
    };
  });
};
