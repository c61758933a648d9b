/** `fretward lesson`: all that a lesson hands out, from one file. */
import { dirname } from 'node:path';
import { isLessonFile } from '../../batch/paths.ts';
import type { Task } from '../../batch/task.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { defined } from '../define.ts';
import { UsageError } from '../exit.ts';
import { RUN_NAMES } from '../options/batch.ts';
import { checkOptions } from '../options/check.ts';
import { LIMITING, type OptionName, type Options } from '../options/options.ts';
import { refuseContradictions } from '../run/contradictions.ts';
import type { Run } from '../run/folder.ts';
import { inFolder } from '../run/start.ts';

const OPTION_NAMES = [
  'init',
  'for',
  'out',
  ...RUN_NAMES,
  ...LIMITING,
  'quiet',
] as const satisfies readonly OptionName[];

export type LessonOptions = Options<(typeof OPTION_NAMES)[number]>;

const NOTES = `What a lesson file can say: fretward lesson --init writes one with comments, and
fretward schema lesson prints it for editors. A lesson obeys its own file alone,
and no fretward.yaml.`;

const EXAMPLES = `  fretward lesson --init monday.yaml --for tune.mxl
      a lesson file to begin with, on a tune, in a window in which it fits
  fretward lesson monday.yaml
      every sheet, a booklet for each edition and a page for the class, in the folder monday beside it
  fretward lesson lessons/ --out out/
      a folder of lessons, each in a folder of its own below out/; run again, it makes what has changed
  fretward lesson lessons/ --out out/ --verify
      in a build: fail if a sheet is missing or out of date`;

export const define = defined({
  argument: ['<file...>', 'lesson files (.yaml), folders or globs'],
  options: OPTION_NAMES,
  said: {
    for: { help: 'with --init, a lesson on this tune, in a window in which it fits' },
    out: { help: 'where the folder of each lesson goes', default: 'beside its file' },
    jobs: { help: 'lessons that are worked on at the same time' },
    force: { help: 'make sheets anew even where lesson, tune and program are what they were' },
    watch: { help: 'stay, and make sheets anew when a lesson file or its tune changes' },
    report: {
      help: 'tell what became of each lesson on standard output: text; json: one document; jsonl: a line for each, as it is done',
    },
    share: { help: 'of all lessons, every n-th from the i-th on: 1/4, 2/4, … on four machines' },
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
  if (options.init) {
    const { beginAll } = await import('../lesson-file/begin.ts');
    return beginAll(files, options);
  }
  if (options.for !== undefined) {
    throw new UsageError(
      '--for begins a lesson file',
      `write fretward lesson --init ${files[0]} --for ${options.for}`,
    );
  }
  return inFolder(await runOf(files, options), {
    words: files,
    begins: isLessonFile,
    renew: () => runOf(files, options),
  });
};

const runOf = async (words: readonly string[], options: LessonOptions): Promise<Run> => {
  const { lessonFiles } = await import('../lesson-file/find.ts');
  const files = await lessonFiles(words);
  return { tasks: await Promise.all(files.map(file => taskFor(file, options))), options, noun: 'lesson' };
};

/** What is to be made of a lesson file. */
const taskFor = async (file: string, options: LessonOptions): Promise<Task> => {
  const [{ lessonText }, { readLesson }, { refusalIn }, { folderOf, taskOf }] = await Promise.all([
    import('../lesson-file/find.ts'),
    import('../lesson-file/read.ts'),
    import('../yaml/entries.ts'),
    import('../lesson-file/job.ts'),
  ]);
  let text = '';
  try {
    text = lessonText(file);
    return await taskOf(readLesson(text, file), options);
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { diagnostics } = refusalIn(text, error.diagnostics);
    const folder = folderOf(file, options.out ?? dirname(file));
    return { kind: 'refused', name: file, folder, diagnostics };
  }
};
