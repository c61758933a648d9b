/** What a run that stays waits for: changes in the files that it is made of. */
import { existsSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';

/** Milliseconds without another change before work begins: saving a file is often several changes. */
const QUIET_TIME = 150;

const AN_HOUR = 3_600_000;

/** Which changes count. */
export interface Watching {
  /** Files and folders to watch; a file that is named here always counts. */
  readonly paths: readonly string[];
  /** Whether another file in a watched folder counts. */
  readonly counts: (path: string) => boolean;
}

export interface Changes {
  /** Answers true when something has changed and been quiet for a while, false when it is over. */
  readonly next: () => Promise<boolean>;
  /** Watches these files, too, from before they are read. */
  readonly follow: (files: readonly string[]) => Promise<void>;
  readonly close: () => Promise<void>;
}

/** Watches until the signal comes. */
export const changesIn = async ({ paths, counts }: Watching, signal: AbortSignal): Promise<Changes> => {
  const { watch } = await import('chokidar');
  // Whole paths: of those that are gone the watcher goes up until a folder is there, which "." never comes to be.
  const named = new Set(paths.map(path => resolve(path)));
  const watcher = watch([...named], {
    ignoreInitial: true,
    ignored: (path, stats) => (stats?.isFile() ?? false) && !named.has(resolve(path)) && !counts(path),
  });
  const bell = new Bell(signal);
  watcher.on('all', event => {
    // Folders come up with what a run writes.
    if (!event.endsWith('Dir')) bell.touch();
  });
  await new Promise<void>(done => {
    watcher.once('ready', () => done());
  });
  const isWatched = (path: string): boolean =>
    watcher.getWatched()[dirname(path)]?.includes(basename(path)) ?? false;
  return {
    next: () => bell.rung(),
    follow: async files => {
      const fresh = files.map(path => resolve(path)).filter(path => !named.has(path) && existsSync(path));
      for (const path of fresh) named.add(path);
      watcher.add(fresh);
      // It does not say when it has taken them up.
      for (let tries = 0; tries < 100 && !fresh.every(isWatched); tries++) {
        await new Promise(done => setTimeout(done, 10));
      }
    },
    close: async () => {
      bell.hush();
      await watcher.close();
    },
  };
};

/** Rings when it was touched and has been left alone for a while, and when the signal comes. */
class Bell {
  readonly #signal: AbortSignal;
  #ringing = false;
  #timer: NodeJS.Timeout | undefined;
  #wake: () => void = () => {};

  constructor(signal: AbortSignal) {
    this.#signal = signal;
    signal.addEventListener('abort', () => this.#wake(), { once: true });
  }

  touch(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.#ringing = true;
      this.#wake();
    }, QUIET_TIME);
  }

  /** Waits until it rings; answers false where that is for the signal. */
  async rung(): Promise<boolean> {
    if (!this.#ringing && !this.#signal.aborted) {
      // Where all that is watched is gone, nothing else keeps the program from ending by itself.
      const stay = setInterval(() => {}, AN_HOUR);
      await new Promise<void>(done => {
        this.#wake = done;
      });
      clearInterval(stay);
    }
    this.#ringing = false;
    return !this.#signal.aborted;
  }

  hush(): void {
    clearTimeout(this.#timer);
  }
}
