/** `--watch`: stays, and makes sheets anew when a tune or what is said about it changes. */
import { isWithin } from '../../batch/paths.ts';
import { fixedPart } from '../../batch/tunes.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { report, say } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';
import { type Changes, changesIn, type Watching } from './changes.ts';
import { type Run, runFolder } from './folder.ts';
import { Interruption } from './interruption.ts';

/** What a run that stays goes by. */
export interface Watched {
  /** Tunes, folders, globs or lesson files, as they were typed. */
  readonly words: readonly string[];
  /** Whether a file that comes up in a folder is something to begin with. */
  readonly begins: (path: string) => boolean;
  /** The folder of its own files, which are nothing to begin with. */
  readonly except?: string | undefined;
  /** Reads again what is asked for. */
  readonly renew: () => Promise<Run>;
}

/** Works until a signal comes, which is the way to end it. */
export const watch = async (first: Run, watched: Watched): Promise<number> => {
  const interruption = new Interruption();
  const { signal } = interruption;
  const changes = await changesIn(watchingFor(first, watched), signal);
  await runFolder(first, interruption);
  if (!first.options.quiet) say('watching; Ctrl-C ends it');
  while (!signal.aborted && (await changes.next())) {
    await workAgain(watched.renew, changes, interruption);
  }
  await changes.close();
  interruption.end();
  return EXIT.done;
};

/** What is wrong for a moment is told, and waits for the next change. */
const workAgain = async (
  renew: Watched['renew'],
  changes: Changes,
  interruption: Interruption,
): Promise<void> => {
  try {
    const run = await renew();
    await changes.follow(sourcesOf(run));
    await runFolder(run, interruption);
  } catch (error) {
    if (error instanceof Refusal) report(error.diagnostics, false);
    else if (error instanceof UsageError) report([error.diagnostic], false);
    else throw error;
  }
};

const watchingFor = (first: Run, { words, begins, except }: Watched): Watching => ({
  paths: [...words.map(fixedPart), ...sourcesOf(first)],
  counts: path => begins(path) && (except === undefined || !isWithin(path, except)),
});

/** The files that the tasks of a run are made of. */
const sourcesOf = ({ tasks }: Run): readonly string[] =>
  tasks.flatMap(task => (task.kind === 'work' ? task.sources : [task.name]));
