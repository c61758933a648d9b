/** What a worker thread runs: the bytes of one tune in, what became of it out. It touches no file. */
import { fromPlain, type PlainJob } from './plain.ts';
import { type Outcome, runTune } from './run.ts';

export interface WorkerTask {
  readonly name: string;
  readonly stem: string;
  readonly bytes: Uint8Array;
  readonly job: PlainJob;
}

/** Makes all outputs of one tune, in memory. */
const work = ({ name, stem, bytes, job }: WorkerTask): Promise<Outcome> =>
  runTune({ name, stem, path: undefined, load: () => bytes }, fromPlain(job));

export default work;
