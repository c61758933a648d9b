/** The exit status that reports on tunes and lessons come to. */
import { isGood, type TuneReport } from '../../batch/report.ts';
import type { Diagnostic } from '../../score/diagnostic.ts';
import { EXIT } from '../exit.ts';

/** `about` is what is said about all of them. */
export const statusOf = (reports: readonly TuneReport[], about: readonly Diagnostic[]): number => {
  if (reports.some(({ result }) => result === 'fault')) return EXIT.fault;
  const good = reports.every(isGood) && about.every(({ severity }) => severity !== 'error');
  return good ? EXIT.done : EXIT.refused;
};
