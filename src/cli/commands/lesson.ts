/** `fretward lesson`: all that a lesson hands out, from one file. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { readTextFile, writeFiles } from '../../batch/files.ts';
import { faultOf } from '../../batch/run.ts';
import { type Diagnostic, Refusal } from '../../score/diagnostic.ts';
import { print, report } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';
import { addOptions, checkOptions, type OptionName } from '../options/options.ts';

const OPTION_NAMES = ['out', 'quiet'] as const satisfies readonly OptionName[];

const EXAMPLES = `
What a lesson file can say: fretward lesson --init writes one with comments, and
fretward schema lesson prints it for editors.

Examples:
  fretward lesson --init monday.yaml
      a lesson file to begin with
  fretward lesson monday.yaml
      every sheet, a booklet for each edition and a page for the class, in the folder monday beside it
  fretward lesson lessons/*.yaml --out out/
      several lessons, each in a folder of its own below out/`;

export const define = (command: Command): void => {
  command
    .argument('<file...>', 'lesson files (.yaml)')
    .option('--init', 'write a lesson file of that name, with comments, instead of reading one')
    .option('-o, --out <folder>', 'where the folder of each lesson goes (default: beside its file)');
  addOptions(command, ['quiet']).addHelpText('after', EXAMPLES);
};

/** Makes every lesson and answers the exit status. */
export const run = async (
  files: readonly string[],
  typed: Readonly<Record<string, unknown>>,
): Promise<number> => {
  const { out, quiet = false } = checkOptions(typed, OPTION_NAMES);
  if (out === '-') throw new UsageError('a lesson is many files', 'use --out <folder>');
  let status: number = EXIT.done;
  for (const file of files) {
    try {
      const made = typed.init ? await begin(file) : await make(file, out);
      report(made.diagnostics, quiet);
      if (!quiet) print(made.written.map(path => `${path}\n`).join(''));
    } catch (error) {
      const refused = error instanceof Refusal;
      report(refused ? error.diagnostics : [faultOf(error)], quiet);
      status = Math.max(status, refused ? EXIT.refused : EXIT.fault);
    }
  }
  return status;
};

interface Made {
  readonly written: readonly string[];
  readonly diagnostics: readonly Diagnostic[];
}

const make = async (file: string, out: string | undefined): Promise<Made> => {
  const [{ readLesson }, { taskOf }, { runLesson }] = await Promise.all([
    import('../lesson-file/read.ts'),
    import('../lesson-file/job.ts'),
    import('../../batch/lesson.ts'),
  ]);
  const { job, folder } = await taskOf(
    readLesson(readTextFile(file, 'fretward lesson --init writes a lesson file to begin with'), file),
    { out },
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
