/** What commands share that answer something about tunes: how answers come out, as text or as JSON. */
import { loadTune } from '../batch/run.ts';
import type { Arranged } from '../fingering/arrange.ts';
import { arrangeEditions, leftOut } from '../fingering/editions.ts';
import { afterSaying, type Diagnostic } from '../score/diagnostic.ts';
import type { Score } from '../score/model.ts';
import type { Tune } from '../score/tune.ts';
import { type Arranging, choiceOf, editionsOf, type Limiting, limitsOf } from './asked.ts';
import { attempt } from './attempt.ts';
import { print } from './console.ts';
import { EXIT } from './exit.ts';
import type { Options } from './options/options.ts';
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

type Answering = Options<'part' | 'voice' | 'chords' | 'json' | 'quiet'> & Limiting;

/** Answers for every tune, as text or, with `--json`, as one array. Answers the exit status. */
export const answerEach = async (
  tunes: readonly string[],
  options: Answering,
  answer: (loaded: Loaded) => Answer | Promise<Answer>,
): Promise<number> => {
  const { json, quiet = false } = options;
  let status: number = EXIT.done;
  const answers: Answer[] = [];
  for (const input of await tunesNamed(tunes)) {
    const done = await attempt(input, quiet, async say => {
      const { diagnostics, ...loaded } = await loadTune(input, choiceOf(options), limitsOf(options));
      const said = await afterSaying(diagnostics, () =>
        answer({ ...loaded, file: input.name, stem: input.stem }),
      );
      say([...diagnostics.filter(each => !said.covers?.includes(each.code)), ...(said.diagnostics ?? [])]);
      answers.push(said);
    });
    status = Math.max(status, done);
  }
  const data = answers.map(each => each.data);
  const texts = answers.map(each => each.text).filter(text => text !== '');
  print(json ? `${JSON.stringify(data, null, 2)}\n` : wrapped(texts.join('\n'), columnsOf(process.stdout)));
  return status;
};

/** Answers for every edition of every tune; data are put together per tune. */
export const answerEditions = (
  tunes: readonly string[],
  options: Answering & Arranging,
  answer: (edition: Arranged, title: string) => Answer,
): Promise<number> => {
  const asked = editionsOf(options);
  return answerEach(tunes, options, ({ tune, file }) => {
    const { editions, refused, diagnostics } = arrangeEditions(tune, asked);
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
