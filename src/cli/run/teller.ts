/** What a run says while it goes on and when it is over: diagnostics, files, progress, the report. */
import type { Turn } from '../../batch/batch.ts';
import { milliseconds } from '../../batch/clock.ts';
import { isGood, type Summary, type TuneReport } from '../../batch/report.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import { print, printable, printJson, report as reportDiagnostics, say } from '../console.ts';
import type { Options } from '../options/options.ts';
import { FootLine, plainLine } from './progress.ts';
import { type Noun, reportText, summaryLine } from './report-text.ts';

type TellingOptions = Options<'quiet' | 'report' | 'verify'>;

export class Teller {
  readonly #options: TellingOptions;
  readonly #turns: number;
  readonly #noun: Noun;
  readonly #foot: FootLine | undefined;
  readonly #start = milliseconds();
  #turn = 0;

  constructor(options: TellingOptions, turns: number, noun: Noun) {
    this.#options = options;
    this.#turns = turns;
    this.#noun = noun;
    const terminal = process.stderr.isTTY && !options.quiet && turns > 1;
    this.#foot = terminal ? new FootLine(process.stderr) : undefined;
  }

  /** Tells what became of a task. */
  tell({ report, made, toMake }: Turn): void {
    this.#turn++;
    this.stop();
    const { quiet = false } = this.#options;
    // What is up to date was told when it was made; what could not be made is told again.
    reportDiagnostics(report.diagnostics, quiet || report.result === 'up-to-date');
    this.#list(report);
    if (made < toMake) {
      const seconds = (milliseconds() - this.#start) / 1000;
      this.#foot?.show({ made, toMake, seconds, file: report.file });
    }
  }

  /** Tells the sum of it all, and what there is to say about all of it. */
  sumUp(reports: readonly TuneReport[], summary: Summary, about: readonly Diagnostic[]): void {
    const { report, quiet = false } = this.#options;
    reportDiagnostics(about, quiet);
    if (report === 'jsonl') print(`${JSON.stringify(summary)}\n`);
    if (report === 'json') printJson({ tunes: reports, summary });
    if (report === 'text') print(reportText(reports, summary, this.#noun));
    const told = reports.length === 1 && (reports[0]!.result === 'written' || !isGood(reports[0]!));
    if (!quiet && report !== 'text' && !told) say(summaryLine(summary, this.#noun));
  }

  /** Takes the progress away. */
  stop(): void {
    this.#foot?.clear();
  }

  /** To standard output the files, or the line of the report; with a report, plain progress beside it. */
  #list(report: TuneReport): void {
    const { report: form, quiet } = this.#options;
    if (form === 'jsonl') print(`${JSON.stringify(report)}\n`);
    if (quiet) return;
    if (form !== undefined) {
      if (!this.#foot) say(plainLine(report, this.#turn, this.#turns));
      return;
    }
    // A terminal that shows the progress need not list every file.
    if (this.#foot && process.stdout.isTTY) return;
    if (report.result === 'written' || report.result === 'would-write') {
      print(report.outputs.map(path => `${printable(path)}\n`).join(''));
    }
  }
}
