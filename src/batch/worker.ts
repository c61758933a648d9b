/** What a worker thread runs: the bytes of one tune in, what became of it out. It touches no file. */
import { milliseconds } from './clock.ts';
import type { Outcome } from './outcome.ts';
import { fromPlain, type PlainJob } from './plain.ts';
import { runTune } from './run.ts';

export interface WorkerTask {
  readonly name: string;
  readonly stem: string;
  readonly bytes: Uint8Array;
  readonly job: PlainJob;
}

export interface Worked {
  readonly outcome: Outcome;
  /** The time it took, waiting for a worker not included. */
  readonly milliseconds: number;
}

/** Makes all outputs of one tune, in memory. */
const work = async ({ name, stem, bytes, job: plain }: WorkerTask): Promise<Worked> => {
  const start = milliseconds();
  const job = fromPlain(plain);
  const input = { name, stem, path: undefined, load: () => bytes };
  const run =
    job.kind === 'lesson' ? (await import('./lesson.ts')).runLesson(input, job) : runTune(input, job);
  return { outcome: await run, milliseconds: milliseconds() - start };
};

export default work;
