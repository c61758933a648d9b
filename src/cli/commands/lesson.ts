/** `fretward lesson`: all that a lesson hands out, from one file. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readTextFile, writeFiles } from '../../batch/files.ts';
import { type Diagnostic, Refusal } from '../../score/diagnostic.ts';
import { attempt } from '../attempt.ts';
import { print } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT, UsageError } from '../exit.ts';
import { checkOptions } from '../options/check.ts';
import { LIMITING, type OptionName, type Options } from '../options/options.ts';

const OPTION_NAMES = ['init', 'out', ...LIMITING, 'quiet'] as const satisfies readonly OptionName[];

type LessonOptions = Options<(typeof OPTION_NAMES)[number]>;

const NOTES = `What a lesson file can say: fretward lesson --init writes one with comments, and
fretward schema lesson prints it for editors.`;

const EXAMPLES = `  fretward lesson --init monday.yaml
      a lesson file to begin with
  fretward lesson monday.yaml
      every sheet, a booklet for each edition and a page for the class, in the folder monday beside it
  fretward lesson lessons/*.yaml --out out/
      several lessons, each in a folder of its own below out/`;

export const define = defined({
  argument: ['<file...>', 'lesson files (.yaml)'],
  options: OPTION_NAMES,
  said: { out: { help: 'where the folder of each lesson goes', default: 'beside its file' } },
  notes: NOTES,
  examples: EXAMPLES,
});

/** Makes every lesson and answers the exit status. */
export const run = async (
  files: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const options = checkOptions(typed, OPTION_NAMES);
  const { init, out, quiet = false } = options;
  if (out === '-') throw new UsageError('a lesson is many files', 'use --out <folder>');
  let status: number = EXIT.done;
  for (const file of files) {
    const done = await attempt(undefined, quiet, async say => {
      const { written, diagnostics } = init ? await begin(file) : await make(file, options);
      say(diagnostics);
      if (!quiet) print(written.map(path => `${path}\n`).join(''));
    });
    status = Math.max(status, done);
  }
  return status;
};

interface Made {
  readonly written: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

const make = async (file: string, options: LessonOptions): Promise<Made> => {
  const [{ readLesson }, { taskOf }, { runLesson }] = await Promise.all([
    import('../lesson-file/read.ts'),
    import('../lesson-file/job.ts'),
    import('../../batch/lesson.ts'),
  ]);
  const { job, folder } = await taskOf(
    readLesson(readTextFile(file, 'fretward lesson --init writes a lesson file to begin with'), file),
    options,
  );
  const { outputs, diagnostics } = await runLesson(job);
  const made = outputs.map(({ name, content }) => ({ path: join(folder, name), content }));
  writeFiles(made);
  return { written: made.map(({ path }) => path), diagnostics };
};

/** Writes a file to begin with; one that is there stays. */
const begin = async (file: string): Promise<Made> => {
  if (existsSync(file)) {
    throw new Refusal({
      severity: 'error',
      code: 'lesson-exists',
      message: 'there is such a file already',
      hint: 'choose another name',
      place: { file },
    });
  }
  const [{ lessonTemplate }, { USUAL_PARTS }] = await Promise.all([
    import('../lesson-file/template.ts'),
    import('../../lesson/pack/parts.ts'),
  ]);
  writeFiles([{ path: file, content: lessonTemplate(file, USUAL_PARTS) }]);
  return { written: [file], diagnostics: [] };
};
