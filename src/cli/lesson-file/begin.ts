/** `fretward lesson --init`: lesson files to begin with. */
import { existsSync } from 'node:fs';
import { writeFiles } from '../../batch/files.ts';
import type { Input } from '../../batch/inputs.ts';
import { isLessonFile, isTuneFile } from '../../batch/paths.ts';
import { loadTune } from '../../batch/run.ts';
import { type Beginning, beginningFor, usualBeginning } from '../../lesson/pack/beginning.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { type Limiting, limitsOf } from '../asked.ts';
import { attempt, type Say } from '../attempt.ts';
import { print } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';
import { RUN_NAMES } from '../options/batch.ts';
import type { Options } from '../options/options.ts';
import { notTogether } from '../run/contradictions.ts';
import { oneTune } from '../tunes.ts';
import { lessonTemplate } from './template.ts';

type BeginOptions = Options<(typeof RUN_NAMES)[number] | 'for' | 'quiet'> & Limiting;

/** Writes files to begin with. Without `.yaml` a file would be in the way of the folder that its lesson gets. */
export const beginAll = async (files: readonly string[], options: BeginOptions): Promise<number> => {
  const other = RUN_NAMES.find(name => options[name] !== undefined);
  if (other) throw notTogether('init', other, '--init makes no sheets');
  const tune = files.find(isTuneFile);
  if (tune !== undefined) {
    const names = files.filter(each => each !== tune);
    throw new UsageError(
      `${tune} is a tune, and no lesson file`,
      `write fretward lesson --init ${names[0] ?? 'monday.yaml'} --for ${tune}`,
    );
  }
  const input = options.for === undefined ? undefined : tuneNamed(options.for);
  const { quiet = false } = options;
  let status: number = EXIT.done;
  for (const named of files) {
    const file = isLessonFile(named) ? named : `${named}.yaml`;
    const done = await attempt(input, quiet, async say => {
      refuseThere(file);
      const begun = input ? await onTune(input, options, say) : { ...usualBeginning(), title: 'Up the neck' };
      writeFiles(
        [{ path: file, content: lessonTemplate({ ...begun, file, tune: input?.path }) }],
        'choose another place for the file',
      );
      if (!quiet) print(`${file}\n`);
    });
    status = Math.max(status, done);
  }
  return status;
};

/** The tune that a lesson is on, which lies in a file. */
const tuneNamed = (name: string): Input => {
  if (name === '-') throw new UsageError('a lesson names its tune by a file', 'save the tune, and name that');
  return oneTune(name);
};

const onTune = async (
  input: Input,
  options: Limiting,
  say: Say,
): Promise<Beginning & { readonly title: string }> => {
  const { tune, diagnostics } = await loadTune(input, { chords: 'top' }, limitsOf(options));
  say(diagnostics);
  return { ...beginningFor(tune), title: tune.title ?? input.stem };
};

/** A file that is there stays. */
const refuseThere = (file: string): void => {
  if (!existsSync(file)) return;
  throw new Refusal({
    severity: 'error',
    code: 'lesson-exists',
    message: 'there is such a file already',
    hint: 'choose another name',
    place: { file },
  });
};
