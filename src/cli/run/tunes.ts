/** The run that a request for the sheets of tunes asks for. */

import type { Job } from '../../batch/job.ts';
import { jobHash, toPlain } from '../../batch/plain.ts';
import type { Work } from '../../batch/task.ts';
import type { Request } from '../request.ts';
import type { Run } from './folder.ts';

/** Throws a UsageError where options for a tune do not hold. */
export const tuneRun = async (request: Request): Promise<Run> => ({
  tasks: await tasksOf(request),
  options: request.options,
  noun: 'tune',
});

/** Tunes for which the same is asked share a job, and its hash. */
const tasksOf = async ({
  inputs,
  jobFor,
  saidAt,
  destination,
  ingredients,
}: Request): Promise<readonly Work[]> => {
  const folder = destination.kind === 'folder' ? destination.path : '.';
  const plain = new Map<Job, Pick<Work, 'job' | 'jobHash'>>();
  return Promise.all(
    inputs.map(async (input): Promise<Work> => {
      const job = await jobFor(input);
      const asked = plain.get(job) ?? hashed(job);
      plain.set(job, asked);
      const sources = [input.name, ...ingredients];
      return { kind: 'work', name: input.name, input, folder, ...asked, sources, saidAt: saidAt(input) };
    }),
  );
};

const hashed = (job: Job): Pick<Work, 'job' | 'jobHash'> => {
  const plain = toPlain(job);
  return { job: plain, jobHash: jobHash(plain) };
};
