/** A run that fills folders: every task in its turn, told as it goes, and ended cleanly by a signal. */
import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import manifest from '../../../package.json' with { type: 'json' };
import { type BatchSettings, runBatch, type Task } from '../../batch/batch.ts';
import { depfile } from '../../batch/depfile.ts';
import { readTextFile, writeFiles } from '../../batch/files.ts';
import { isGood, summarise, type TuneReport } from '../../batch/report.ts';
import { say } from '../console.ts';
import { EXIT } from '../exit.ts';
import type { Options } from '../options/options.ts';
import type { Interruption } from './interruption.ts';
import { Teller } from './teller.ts';

/** What made the sheets: this version, and while it is worked on this very build. */
const BUILD = [manifest.version, process.env.FRETWARD_BUILD].filter(Boolean).join('+');

export interface Run {
  readonly tasks: readonly Task[];
  readonly options: Options<'quiet' | 'report' | 'verify' | 'dryRun' | 'force' | 'depfile' | 'jobs'>;
  /** What its tasks are, for a reader. */
  readonly noun: 'tune' | 'lesson';
}

/** Makes what is not up to date and answers the exit status. */
export const runFolder = async (run: Run, interruption: Interruption): Promise<number> => {
  const { tasks, options, noun } = run;
  const teller = new Teller(options, tasks.length, noun);
  const reports: TuneReport[] = [];
  for await (const turn of runBatch(tasks, settingsOf(options, interruption.signal))) {
    reports.push(turn.report);
    teller.tell(turn);
  }
  if (interruption.cause) {
    teller.stop();
    say(
      `interrupted by ${interruption.cause.name}: ${reports.length} of ${tasks.length} ${noun}s are done; the same command goes on from there`,
    );
    return interruption.cause.status;
  }
  if (options.depfile !== undefined) {
    const before = existsSync(options.depfile) ? readTextFile(options.depfile) : '';
    writeFiles([{ path: options.depfile, content: depfile(reports.map(ruleOf(tasks)), before) }]);
  }
  teller.sumUp(reports, summarise(reports));
  return statusOf(reports);
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

const ruleOf = (tasks: readonly Task[]) => (report: TuneReport, index: number) => {
  const task = tasks[index]!;
  const sources = task.kind === 'work' ? task.sources : [];
  return { name: task.name, targets: report.outputs, sources, whole: isGood(report) };
};

const statusOf = (reports: readonly TuneReport[]): number => {
  if (reports.some(({ result }) => result === 'fault')) return EXIT.fault;
  return reports.every(isGood) ? EXIT.done : EXIT.refused;
};
