/** `--watch`: stays, and makes sheets anew when a tune or what is said about it changes. */
import { basename, resolve, sep } from 'node:path';
import { isTune } from '../../batch/inputs.ts';
import { fixedPart } from '../../batch/tunes.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { CONFIG_NAME } from '../config/find.ts';
import { report, say } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';
import { type Run, runFolder } from './folder.ts';
import { Interruption } from './interruption.ts';

/** Milliseconds without another change before work begins: saving a file is often several changes. */
const QUIET_TIME = 150;

/** What a run that stays goes by. */
export interface Watched {
  /** Tunes, folders, globs or lesson files, as they were typed. */
  readonly words: readonly string[];
  /** The folder of its own files, which are no tunes to watch. */
  readonly except?: string | undefined;
  /** Reads again what is asked for. */
  readonly renew: () => Promise<Run>;
}

/** Works until a signal comes, which is the way to end it. */
export const watch = async (first: Run, watched: Watched): Promise<number> => {
  const interruption = new Interruption();
  const { signal } = interruption;
  const changes = await changesOf(first, watched, signal);
  await runFolder(first, interruption);
  if (!first.options.quiet) say('watching; Ctrl-C ends it');
  while (!signal.aborted && (await changes.next())) {
    const run = await workAgain(watched.renew, interruption);
    if (run) changes.follow(run);
  }
  await changes.close();
  interruption.end();
  return EXIT.done;
};

/** What is wrong for a moment is told, and waits for the next change. */
const workAgain = async (renew: Watched['renew'], interruption: Interruption): Promise<Run | undefined> => {
  try {
    const run = await renew();
    await runFolder(run, interruption);
    return run;
  } catch (error) {
    if (error instanceof Refusal) report(error.diagnostics, false);
    else if (error instanceof UsageError) report([error.diagnostic], false);
    else throw error;
    return undefined;
  }
};

interface Changes {
  /** Answers true when something has changed and been quiet for a while, false when it is over. */
  readonly next: () => Promise<boolean>;
  /** Watches all files that a run depends on, too. */
  readonly follow: (run: Run) => void;
  readonly close: () => Promise<void>;
}

/** The files that the tasks of a run are made of. */
const sourcesOf = ({ tasks }: Run): readonly string[] => [
  ...new Set(tasks.flatMap(task => (task.kind === 'work' ? task.sources : [task.name]))),
];

const changesOf = async (
  first: Run,
  { words, except: folder }: Watched,
  signal: AbortSignal,
): Promise<Changes> => {
  const { watch: watchFiles } = await import('chokidar');
  const except = folder === undefined ? undefined : resolve(folder) + sep;
  const named = new Set([...words, ...sourcesOf(first)].map(path => resolve(path)));
  const watcher = watchFiles([...words.map(fixedPart), ...sourcesOf(first)], {
    ignoreInitial: true,
    ignored: (path, stats) =>
      (stats?.isFile() ?? false) &&
      !named.has(resolve(path)) &&
      (!(isTune(path) || basename(path) === CONFIG_NAME) ||
        (except !== undefined && resolve(path).startsWith(except))),
  });
  let changed = false;
  let timer: NodeJS.Timeout | undefined;
  let wake: () => void = () => {};
  watcher.on('all', () => {
    clearTimeout(timer);
    timer = setTimeout(() => {
      changed = true;
      wake();
    }, QUIET_TIME);
  });
  signal.addEventListener('abort', () => wake(), { once: true });
  await new Promise<void>(done => {
    watcher.once('ready', () => done());
  });
  return {
    next: async () => {
      if (!changed && !signal.aborted) {
        await new Promise<void>(done => {
          wake = done;
        });
      }
      changed = false;
      return !signal.aborted;
    },
    follow: run => {
      for (const path of sourcesOf(run)) {
        named.add(resolve(path));
        watcher.add(path);
      }
    },
    close: async () => {
      clearTimeout(timer);
      await watcher.close();
    },
  };
};
