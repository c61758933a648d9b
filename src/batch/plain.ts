/** Jobs as plain values, which go to a worker thread and whose hash says whether anything was asked differently. */
import { createHash } from 'node:crypto';
import { formatNamed, type SheetStyle } from '../emit/formats.ts';
import type { Job } from './run.ts';

/** A job without functions. Its text is not painted: colours are for a terminal. */
export interface PlainJob extends Omit<Job, 'formats' | 'style'> {
  readonly formats: readonly string[];
  readonly style: Omit<SheetStyle, 'paint'>;
}

export const toPlain = (job: Job): PlainJob => {
  const { paint: _, ...style } = job.style;
  return { ...job, formats: job.formats.map(format => format.name), style };
};

export const fromPlain = (plain: PlainJob): Job => ({
  ...plain,
  formats: plain.formats.map(formatNamed),
  style: { ...plain.style, paint: (_role, text) => text },
});

/** A hash of some bytes, short enough for a list and long enough that no two files share one. */
export const hashOf = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('base64url').slice(0, 24);

/** The hash of all that a job asks for; fonts count by their bytes. */
export const jobHash = (job: PlainJob): string =>
  hashOf(
    JSON.stringify(job, (_key, value: unknown) => (value instanceof Uint8Array ? hashOf(value) : value)),
  );
