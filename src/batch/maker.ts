/** Who makes the outputs of tunes: this thread, or a pool of workers where there is enough to do. */
import { fileURLToPath } from 'node:url';
import type { Worked, WorkerTask } from './worker.ts';

export interface Maker {
  readonly make: (task: WorkerTask) => Promise<Worked>;
  /** How many tunes it is worth giving it at once. */
  readonly atOnce: number;
  readonly close: () => Promise<void>;
}

/** A worker loads the program anew, which takes as long as some tunes do. */
const TUNES_WORTH_A_WORKER = 8;

/** A maker for so many tunes with at most so many jobs at once. */
export const makerFor = async (tunes: number, jobs: number): Promise<Maker> => {
  const workers = Math.min(jobs, Math.ceil(tunes / TUNES_WORTH_A_WORKER));
  return workers > 1 ? poolOf(workers) : thisThread();
};

const thisThread = async (): Promise<Maker> => {
  const { default: make } = await import('./worker.ts');
  return {
    make: async task => {
      // Signals are heard between tunes.
      await new Promise(resolve => setImmediate(resolve));
      return make(task);
    },
    atOnce: 1,
    close: async () => {},
  };
};

const poolOf = async (workers: number): Promise<Maker> => {
  const { Tinypool } = await import('tinypool');
  const pool = new Tinypool({
    // The bundle puts it beside the file that this comes to lie in.
    filename: fileURLToPath(new URL('./worker.js', import.meta.url)),
    minThreads: workers,
    maxThreads: workers,
  });
  return {
    make: task => pool.run(task) as Promise<Worked>,
    atOnce: 2 * workers,
    close: () => pool.destroy(),
  };
};
