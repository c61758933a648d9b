/**
 * What the commands share that make something of their own for a lesson: the tune that they go by with
 * `--for`, the editions, and the way out.
 */
import type { Input } from '../batch/inputs.ts';
import { loadTune, renderEditions } from '../batch/run.ts';
import { inFile, type SaidAt } from '../batch/said.ts';
import type { Arranged } from '../fingering/arrange.ts';
import { arrangeEditions, leftOut } from '../fingering/editions.ts';
import type { KnownPlaces, LessonAsked } from '../lesson/places.ts';
import { placesOfTune } from '../lesson/regions.ts';
import { afterSaying, type Diagnostic, Refusal } from '../score/diagnostic.ts';
import type { Tune } from '../score/tune.ts';
import { type Arranging, choiceOf, editionsOf, type Limiting, limitsOf } from './asked.ts';
import { attempt, type Say } from './attempt.ts';
import { UsageError } from './exit.ts';
import { ARRANGING, type OptionName, type Options, PRINTING, READING } from './options/options.ts';
import { deliver, destinationOf, printingOf } from './output.ts';
import { oneTune } from './tunes.ts';

export const LESSON_NAMES = [
  'for',
  ...ARRANGING,
  ...PRINTING,
  ...READING,
] as const satisfies readonly OptionName[];

export type LessonOptions = Options<(typeof LESSON_NAMES)[number]>;

/** The lesson that the options describe. */
export interface Lesson extends LessonAsked {
  /** The tune of `--for`, in the key it is played in. */
  readonly tune: Tune | undefined;
  readonly known: readonly KnownPlaces[];
  readonly diagnostics: readonly Diagnostic[];
}

/** Reads and arranges the tune of `--for`, if there is one. Throws a Refusal, or a UsageError. */
export const lessonOf = async (options: Arranging & Limiting & Options<'for'>): Promise<Lesson> => {
  const asked = editionsOf(options);
  if (options.for === undefined) {
    if (asked.rules.windows.some(({ measures }) => measures)) {
      throw new UsageError(
        '--frets by measures needs a tune',
        'name one window, such as 4-8, or a tune with --for',
      );
    }
    return { ...asked, tune: undefined, known: [], diagnostics: [] };
  }
  const { tune, editions, diagnostics } = await arrangedTune(options.for, options);
  const arrangements = editions.map(({ arrangement }) => arrangement);
  const instruments = arrangements.map(({ instrument }) => instrument);
  return { ...asked, ...placesOfTune(tune, arrangements, asked.rules), instruments, tune, diagnostics };
};

/** The one tune of that name, arranged for all editions; diagnostics carry the file's name. */
export const arrangedTune = async (file: string, options: Arranging & Limiting) => {
  const input = oneTune(file);
  try {
    const arranged = await arrangedInput(input, options);
    return { ...arranged, diagnostics: inFile(input.name, arranged.diagnostics) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const { withExcerpts } = await import('../batch/excerpt.ts');
    throw new Refusal(...inFile(input.name, withExcerpts(error.diagnostics, input)));
  }
};

/** A tune, arranged for all editions that there can be. */
export const arrangedInput = async (input: Input, options: Arranging & Limiting) => {
  const { tune, diagnostics } = await loadTune(input, choiceOf(options), limitsOf(options));
  const arranged = await afterSaying(diagnostics, () => arrangeEditions(tune, editionsOf(options)));
  const own = arranged.editions.flatMap(edition => edition.diagnostics);
  const together = [...diagnostics, ...arranged.diagnostics, ...leftOut(arranged.refused)];
  return { ...arranged, stem: input.stem, diagnostics: [...together, ...own] };
};

/** Something made for a lesson, ready to be printed. */
export interface Made {
  readonly tune: Tune;
  readonly editions: readonly Pick<Arranged, 'arrangement' | 'diagnostics'>[];
  readonly diagnostics: readonly Diagnostic[];
  /** Start of the names of its files. */
  readonly stem: string;
}

/** Makes, prints and delivers; answers the exit status. What is refused is said. */
export const handOut = async (
  options: LessonOptions,
  saidAt: SaidAt,
  make: () => Promise<Made>,
): Promise<number> => {
  const destination = destinationOf(options);
  const printing = await printingOf(options, destination);
  const quiet = options.quiet ?? false;
  const deliverAll = async (say: Say): Promise<void> => {
    const { tune, editions, diagnostics, stem } = await make();
    const rendered = await renderEditions(tune, editions, stem, printing);
    say([...diagnostics, ...rendered.diagnostics]);
    deliver(rendered.outputs, destination, quiet);
  };
  return attempt(undefined, quiet, deliverAll, saidAt);
};

/** Words as the name of a file: "B♭ major scale" → "b-flat-major-scale". */
export const fileStem = (words: string): string =>
  words
    .replaceAll('♯', ' sharp ')
    .replaceAll('♭', ' flat ')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');
