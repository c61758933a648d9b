/** `--watch`: stays, and makes sheets anew when a tune or what is said about the tunes changes. */
import { basename, resolve, sep } from 'node:path';
import { isTune } from '../../batch/inputs.ts';
import { fixedPart } from '../../batch/tunes.ts';
import { Refusal } from '../../score/diagnostic.ts';
import { CONFIG_NAME } from '../config/find.ts';
import { report, say } from '../console.ts';
import { EXIT, UsageError } from '../exit.ts';
import type { Request } from '../request.ts';
import { runFolder } from './folder.ts';
import { Interruption } from './interruption.ts';
import { tuneRun } from './tunes.ts';

/** Milliseconds without another change before work begins: saving a file is often several changes. */
const QUIET_TIME = 150;

/** Works until a signal comes, which is the way to end it. `renew` reads the request again. */
export const watch = async (
  first: Request,
  tunes: readonly string[],
  renew: () => Promise<Request>,
): Promise<number> => {
  const interruption = new Interruption();
  const { signal } = interruption;
  const changes = await changesOf(first, tunes, signal);
  await runFolder(await tuneRun(first), interruption);
  if (!first.options.quiet) say('watching; Ctrl-C ends it');
  while (!signal.aborted && (await changes.next())) {
    await workAgain(renew, interruption);
  }
  await changes.close();
  interruption.end();
  return EXIT.done;
};

/** What is wrong for a moment is told, and waits for the next change. */
const workAgain = async (renew: () => Promise<Request>, interruption: Interruption): Promise<void> => {
  try {
    await runFolder(await tuneRun(await renew()), interruption);
  } catch (error) {
    if (error instanceof Refusal) report(error.diagnostics, false);
    else if (error instanceof UsageError) report([error.diagnostic], false);
    else throw error;
  }
};

interface Changes {
  /** Answers true when something has changed and been quiet for a while, false when it is over. */
  readonly next: () => Promise<boolean>;
  readonly close: () => Promise<void>;
}

const changesOf = async (
  { destination, ingredients }: Request,
  tunes: readonly string[],
  signal: AbortSignal,
): Promise<Changes> => {
  const { watch: watchFiles } = await import('chokidar');
  const except = destination.kind === 'folder' ? resolve(destination.path) + sep : undefined;
  const named = new Set([...tunes, ...ingredients].map(path => resolve(path)));
  const watcher = watchFiles([...tunes.map(fixedPart), ...ingredients], {
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
    close: async () => {
      clearTimeout(timer);
      await watcher.close();
    },
  };
};
