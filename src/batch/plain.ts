/** Jobs as plain values, which go to a worker thread and whose hash says whether anything was asked differently. */
import { createHash } from 'node:crypto';
import { type Format, formatNamed, type SheetStyle } from '../emit/formats.ts';
import type { Job, LessonJob } from './job.ts';

/** What jobs hold that is no plain value. */
interface Look {
  readonly formats: readonly Format[];
  readonly style: SheetStyle;
}

/** The same without functions. Its text is not painted: colours are for a terminal. */
interface PlainLook {
  readonly formats: readonly string[];
  readonly style: Omit<SheetStyle, 'paint'>;
}

type Plain<J extends Look> = Omit<J, keyof Look> & PlainLook;

/** A job without functions. */
export type PlainJob = Plain<Job> | Plain<LessonJob>;

export const toPlain = (job: Job | LessonJob): PlainJob => ({ ...job, ...plainLook(job) });

const plainLook = ({ formats, style: { paint: _, ...style } }: Look): PlainLook => ({
  formats: formats.map(format => format.name),
  style,
});

export const fromPlain = (plain: PlainJob): Job | LessonJob => ({ ...plain, ...lookOf(plain) });

const lookOf = ({ formats, style }: PlainLook): Look => ({
  formats: formats.map(formatNamed),
  style: { ...style, paint: (_role, text) => text },
});

/** A hash of some bytes, short enough for a list and long enough that no two files share one. */
export const hashOf = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('base64url').slice(0, 24);

/** The hash of all that a job asks for; fonts count by their bytes. */
export const jobHash = (job: PlainJob): string =>
  hashOf(
    JSON.stringify(job, (_key, value: unknown) => (value instanceof Uint8Array ? hashOf(value) : value)),
  );
