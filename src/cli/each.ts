/** What commands on tunes share: their argument, and for those that answer something, how answers come out. */
import type { Command } from 'commander';
import { faultOf, loadTune } from '../batch/run.ts';
import { findTunes } from '../batch/tunes.ts';
import type { Arranged } from '../fingering/arrange.ts';
import { arrangeEditions } from '../fingering/editions.ts';
import { type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { Score } from '../score/model.ts';
import type { Tune } from '../score/tune.ts';
import { choiceOf } from './choice.ts';
import { print, report } from './console.ts';
import { EXIT } from './exit.ts';
import { chooseInstruments } from './instruments.ts';
import { type ARRANGING, addOptions, type OptionName, type Options } from './options/options.ts';
import { rulesOf } from './options/rules.ts';

/** The `define` of a command that takes tunes. */
export const takesTunes =
  (names: readonly OptionName[], examples: string) =>
  (command: Command): void => {
    command.argument('<tune...>', 'MusicXML files (.musicxml, .xml, .mxl), folders, or - for standard input');
    addOptions(command, names).addHelpText('after', `\nExamples:\n${examples}`);
  };

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

/** Answers for every tune, as text or, with `--json`, as one array. Answers the exit status. */
export const answerEach = async (
  tunes: readonly string[],
  options: Options<'part' | 'voice' | 'chords' | 'json' | 'quiet'>,
  answer: (loaded: Loaded) => Answer | Promise<Answer>,
): Promise<number> => {
  let status: number = EXIT.done;
  const answers: Answer[] = [];
  for (const input of await findTunes(tunes)) {
    const say = (diagnostics: readonly Diagnostic[]): void =>
      report(
        diagnostics.map(each => ({ ...each, place: { file: input.name, ...each.place } })),
        options.quiet ?? false,
      );
    try {
      const { diagnostics, ...loaded } = await loadTune(input, choiceOf(options));
      const said = await answer({ ...loaded, file: input.name, stem: input.stem });
      say([...diagnostics.filter(each => !said.covers?.includes(each.code)), ...(said.diagnostics ?? [])]);
      answers.push(said);
    } catch (error) {
      const refused = error instanceof Refusal;
      say(refused ? error.diagnostics : [faultOf(error)]);
      status = Math.max(status, refused ? EXIT.refused : EXIT.fault);
    }
  }
  const texts = answers.map(each => each.text).filter(text => text !== '');
  print(
    options.json
      ? `${JSON.stringify(
          answers.map(each => each.data),
          null,
          2,
        )}\n`
      : texts.join('\n'),
  );
  return status;
};

/** Answers for every edition of every tune; data are put together per tune. */
export const answerEditions = (
  tunes: readonly string[],
  options: Options<(typeof ARRANGING)[number] | 'json' | 'quiet'>,
  answer: (edition: Arranged, title: string) => Answer,
): Promise<number> => {
  const asked = {
    instruments: chooseInstruments(options),
    rules: rulesOf(options),
    transpose: options.transpose ?? 0,
    match: options.match ?? false,
  };
  return answerEach(tunes, options, ({ tune, file }) => {
    const { editions, diagnostics } = arrangeEditions(tune, asked);
    const answers = editions.map(edition =>
      answer(edition, `${tune.title ?? file}, ${edition.arrangement.instrument.name}`),
    );
    return {
      data: { file, editions: answers.map(each => each.data) },
      text: answers.map(each => each.text).join('\n'),
      diagnostics: [...diagnostics, ...editions.flatMap(each => each.diagnostics)],
    };
  });
};
