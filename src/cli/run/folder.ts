/** A run that fills a folder: every tune in its turn, told as it goes, and ended cleanly by a signal. */
import { availableParallelism } from 'node:os';
import manifest from '../../../package.json' with { type: 'json' };
import { type BatchSettings, runBatch, type Task } from '../../batch/batch.ts';
import { depfile } from '../../batch/depfile.ts';
import { writeFiles } from '../../batch/files.ts';
import { jobHash, toPlain } from '../../batch/plain.ts';
import { isGood, summarise, type TuneReport } from '../../batch/report.ts';
import type { Job } from '../../batch/run.ts';
import { say } from '../console.ts';
import { EXIT } from '../exit.ts';
import type { Request } from '../request.ts';
import type { Interruption } from './interruption.ts';
import { Teller } from './teller.ts';

/** What made the sheets: this version, and while it is worked on this very build. */
const BUILD = [manifest.version, process.env.FRETWARD_BUILD].filter(Boolean).join('+');

/** Makes what is not up to date and answers the exit status. */
export const runFolder = async (request: Request, interruption: Interruption): Promise<number> => {
  const tasks = await tasksOf(request);
  const teller = new Teller(request.options, tasks.length);
  const reports: TuneReport[] = [];
  for await (const turn of runBatch(tasks, settingsOf(request, interruption.signal))) {
    reports.push(turn.report);
    teller.tell(turn);
  }
  if (interruption.cause) {
    teller.stop();
    say(
      `interrupted by ${interruption.cause.name}: ${reports.length} of ${tasks.length} tunes are done; the same command goes on from there`,
    );
    return interruption.cause.status;
  }
  const { depfile: path } = request.options;
  if (path !== undefined) writeFiles([{ path, content: depfile(reports, request.ingredients) }]);
  teller.sumUp(reports, summarise(reports));
  return statusOf(reports);
};

/** Tunes for which the same is asked share a job, and its hash. */
const tasksOf = async ({ inputs, jobFor }: Request): Promise<readonly Task[]> => {
  const plain = new Map<Job, Pick<Task, 'job' | 'jobHash'>>();
  return Promise.all(
    inputs.map(async input => {
      const job = await jobFor(input);
      const known = plain.get(job);
      if (known) return { input, ...known };
      const made = toPlain(job);
      const asked = { job: made, jobHash: jobHash(made) };
      plain.set(job, asked);
      return { input, ...asked };
    }),
  );
};

const settingsOf = ({ options, destination }: Request, signal: AbortSignal): BatchSettings => ({
  folder: destination.kind === 'folder' ? destination.path : '.',
  mode: options.verify ? 'compare' : options.dryRun ? 'list' : 'write',
  force: options.force ?? false,
  jobs: options.jobs ?? availableParallelism(),
  build: BUILD,
  signal,
});

const statusOf = (reports: readonly TuneReport[]): number => {
  if (reports.some(({ result }) => result === 'fault')) return EXIT.fault;
  return reports.every(isGood) ? EXIT.done : EXIT.refused;
};
