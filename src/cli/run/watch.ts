/** `--watch`: stays, and makes sheets anew when a tune or what is said about it changes. */
import { existsSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { isWithin } from '../../batch/paths.ts';
import { fixedPart } from '../../batch/tunes.ts';
import { Refusal } from '../../score/diagnostic.ts';
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
  const changes = await changesOf(first, watched, signal);
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
    await changes.follow(run);
    await runFolder(run, interruption);
  } catch (error) {
    if (error instanceof Refusal) report(error.diagnostics, false);
    else if (error instanceof UsageError) report([error.diagnostic], false);
    else throw error;
  }
};

interface Changes {
  /** Answers true when something has changed and been quiet for a while, false when it is over. */
  readonly next: () => Promise<boolean>;
  /** Watches all files that a run depends on, too, from before it reads them. */
  readonly follow: (run: Run) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** The files that the tasks of a run are made of. */
const sourcesOf = ({ tasks }: Run): readonly string[] => [
  ...new Set(tasks.flatMap(task => (task.kind === 'work' ? task.sources : [task.name]))),
];

const changesOf = async (
  first: Run,
  { words, begins, except }: Watched,
  signal: AbortSignal,
): Promise<Changes> => {
  const { watch: watchFiles } = await import('chokidar');
  const named = new Set([...words, ...sourcesOf(first)].map(path => resolve(path)));
  // Whole paths: of those that are gone the watcher goes up until a folder is there, which "." never comes to be.
  const watcher = watchFiles(
    [...words.map(fixedPart), ...sourcesOf(first)].map(path => resolve(path)),
    {
      ignoreInitial: true,
      ignored: (path, stats) =>
        (stats?.isFile() ?? false) &&
        !named.has(resolve(path)) &&
        (!begins(path) || (except !== undefined && isWithin(path, except))),
    },
  );
  let changed = false;
  let timer: NodeJS.Timeout | undefined;
  let wake: () => void = () => {};
  watcher.on('all', event => {
    // Folders come up with what a run writes.
    if (event.endsWith('Dir')) return;
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
    follow: async run => {
      const fresh = sourcesOf(run).filter(path => !named.has(resolve(path)) && existsSync(path));
      for (const path of fresh) named.add(resolve(path));
      watcher.add(fresh.map(path => resolve(path)));
      const isWatched = (path: string): boolean =>
        watcher.getWatched()[dirname(resolve(path))]?.includes(basename(path)) ?? false;
      // It does not say when it has taken them up.
      for (let tries = 0; tries < 100 && !fresh.every(isWatched); tries++) {
        await new Promise(done => setTimeout(done, 10));
      }
    },
    close: async () => {
      clearTimeout(timer);
      await watcher.close();
    },
  };
};
