/** A run that fills folders: every task in its turn, told as it goes, and ended cleanly by a signal. */
import { availableParallelism } from 'node:os';
import { basename, extname } from 'node:path';
import manifest from '../../../package.json' with { type: 'json' };
import { type BatchSettings, runBatch } from '../../batch/batch.ts';
import { summarise, type TuneReport } from '../../batch/report.ts';
import { dealt, shareOf } from '../../batch/shares.ts';
import { aboutStanding } from '../../batch/standing.ts';
import type { Task } from '../../batch/task.ts';
import { say } from '../console.ts';
import type { RUN_NAMES } from '../options/batch.ts';
import type { Options } from '../options/options.ts';
import type { Interruption } from './interruption.ts';
import type { Noun } from './report-text.ts';
import { statusOf } from './status.ts';
import { Teller } from './teller.ts';

/** What made the sheets: this version, and while it is worked on this very build. */
const BUILD = [manifest.version, process.env.FRETWARD_BUILD].filter(Boolean).join('+');

export interface Run {
  /** All that there is to do, on however many machines. */
  readonly tasks: readonly Task[];
  readonly options: Options<(typeof RUN_NAMES)[number] | 'quiet'>;
  /** What its tasks are, for a reader. */
  readonly noun: Noun;
}

/** Makes what is not up to date and answers the exit status. */
export const runFolder = async (run: Run, interruption: Interruption): Promise<number> => {
  const { options, noun } = run;
  const tasks = dealt(run.tasks, options.share);
  const teller = new Teller(options, tasks.length, noun);
  const reports: TuneReport[] = [];
  const settings = settingsOf(options, interruption.signal);
  const batch = runBatch(tasks, settings);
  let turn = await batch.next();
  for (; !turn.done; turn = await batch.next()) {
    reports.push(turn.value.report);
    teller.tell(turn.value);
  }
  if (interruption.cause) {
    teller.stop();
    say(
      `interrupted by ${interruption.cause.name}: ${reports.length} of ${tasks.length} ${noun}s are done; the same command goes on from there`,
    );
    return interruption.cause.status;
  }
  const about = [...aboutStanding(turn.value, settings.mode)];
  if (options.depfile !== undefined) {
    const { tellMake } = await import('./depends.ts');
    about.push(...tellMake(options.depfile, tasks, reports));
  }
  const shares = [shareOf(run.tasks.map(nameOf), options.share)];
  teller.sumUp(reports, summarise(reports, { shares, leftOver: turn.value.leftOver }), about);
  return statusOf(reports, about);
};

const settingsOf = (
  { verify, dryRun, force = false, jobs = availableParallelism() }: Run['options'],
  signal: AbortSignal,
): BatchSettings => ({
  mode: verify ? 'compare' : dryRun ? 'list' : 'write',
  force,
  jobs,
  build: BUILD,
  signal,
});

/** What a task is called wherever its file lies. */
const nameOf = (task: Task): string =>
  task.kind === 'work' ? task.input.stem : basename(task.name, extname(task.name));
