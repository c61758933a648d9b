/** `fretward lesson`: all that a lesson hands out, from one file. */
import { existsSync } from 'node:fs';
import type { Task } from '../../batch/batch.ts';
import { readTextFile, writeFiles } from '../../batch/files.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { attempt } from '../attempt.ts';
import { print } from '../console.ts';
import { defined } from '../define.ts';
import { EXIT, UsageError } from '../exit.ts';
import { RUN_NAMES } from '../options/batch.ts';
import { checkOptions } from '../options/check.ts';
import { LIMITING, type OptionName, type Options } from '../options/options.ts';
import { notTogether, refuseContradictions } from '../run/contradictions.ts';
import type { Run } from '../run/folder.ts';
import { inFolder } from '../run/start.ts';

const OPTION_NAMES = [
  'init',
  'out',
  ...RUN_NAMES,
  ...LIMITING,
  'quiet',
] as const satisfies readonly OptionName[];

type LessonOptions = Options<(typeof OPTION_NAMES)[number]>;

const NOTES = `What a lesson file can say: fretward lesson --init writes one with comments, and
fretward schema lesson prints it for editors.`;

const EXAMPLES = `  fretward lesson --init monday.yaml
      a lesson file to begin with
  fretward lesson monday.yaml
      every sheet, a booklet for each edition and a page for the class, in the folder monday beside it
  fretward lesson lessons/*.yaml --out out/
      several lessons, each in a folder of its own below out/; run again, it makes what has changed
  fretward lesson lessons/*.yaml --out out/ --verify
      in a build: fail if a sheet is missing or out of date`;

export const define = defined({
  argument: ['<file...>', 'lesson files (.yaml)'],
  options: OPTION_NAMES,
  said: {
    out: { help: 'where the folder of each lesson goes', default: 'beside its file' },
    jobs: { help: 'lessons that are worked on at the same time' },
    force: { help: 'make sheets anew even where lesson, tune and program are what they were' },
    watch: { help: 'stay, and make sheets anew when a lesson file or its tune changes' },
    report: {
      help: 'tell what became of each lesson on standard output: text; json: one document; jsonl: a line for each, as it is done',
    },
    shard: { help: 'of all lessons, every n-th from the i-th on: 1/4, 2/4, … on four machines' },
  },
  notes: NOTES,
  examples: EXAMPLES,
});

/** Makes every lesson and answers the exit status. */
export const run = async (
  files: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const options = checkOptions(typed, OPTION_NAMES);
  if (options.out === '-') throw new UsageError('a lesson is many files', 'use --out <folder>');
  refuseContradictions(options);
  if (options.init) return beginAll(files, options);
  return inFolder(await runOf(files, options), {
    words: files,
    renew: () => runOf(files, options),
  });
};

const runOf = async (files: readonly string[], options: LessonOptions): Promise<Run> => ({
  tasks: await Promise.all(files.map(file => taskFor(file, options))),
  options,
  noun: 'lesson',
});

/** What is to be made of a lesson file. */
const taskFor = async (file: string, options: LessonOptions): Promise<Task> => {
  const [{ readLesson }, { refusalIn }, { taskOf }] = await Promise.all([
    import('../lesson-file/read.ts'),
    import('../yaml/entries.ts'),
    import('../lesson-file/job.ts'),
  ]);
  let text = '';
  try {
    text = readTextFile(file, 'fretward lesson --init writes a lesson file to begin with');
    return await taskOf(readLesson(text, file), options);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { diagnostics } = refusalIn(text, error.diagnostics);
    return { kind: 'refused', name: file, diagnostics };
  }
};

/** Writes files to begin with. Without `.yaml` a file would be in the way of the folder that its lesson gets. */
const beginAll = async (files: readonly string[], options: LessonOptions): Promise<number> => {
  const other = RUN_NAMES.find(name => options[name] !== undefined);
  if (other) throw notTogether('init', other, '--init makes no sheets');
  const { quiet = false } = options;
  let status: number = EXIT.done;
  for (const named of files) {
    const file = /\.ya?ml$/i.test(named) ? named : `${named}.yaml`;
    const done = await attempt(undefined, quiet, async () => {
      await begin(file);
      if (!quiet) print(`${file}\n`);
    });
    status = Math.max(status, done);
  }
  return status;
};

/** Writes a file to begin with; one that is there stays. */
const begin = async (file: string): Promise<void> => {
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
};
