/** From a lesson file to what is to be made of it. */
import { existsSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import { BLAMED } from '../../batch/blame.ts';
import { fileInput } from '../../batch/inputs.ts';
import type { LessonJob } from '../../batch/job.ts';
import { isInstrumentFile } from '../../batch/paths.ts';
import { jobHash, toPlain } from '../../batch/plain.ts';
import type { SaidAt } from '../../batch/said.ts';
import type { Work } from '../../batch/task.ts';
import { FORMATS } from '../../emit/formats.ts';
import { USUAL_PARTS } from '../../lesson/pack/parts.ts';
import { type DiagnosticPlace, Refusal } from '../../score/diagnostic.ts';
import { choiceOf, editionsOf, ingredientsOf, type Limiting, limitsOf } from '../asked.ts';
import { UsageError } from '../exit.ts';
import { chooseInstruments } from '../instruments.ts';
import { listed } from '../options/values.ts';
import { printingOf } from '../output.ts';
import { type Fence, insideOf } from './paths.ts';
import type { LessonFile } from './read.ts';

/** What the command line says about a lesson. */
export interface LessonSaid extends Limiting {
  /** Instead of the file's own, from the working folder. */
  readonly out?: string | undefined;
}

/** Throws a Refusal that names the line of what cannot be done. */
export const taskOf = async (file: LessonFile, said: LessonSaid): Promise<Work> => {
  const { path, own, placeOf } = file;
  const folder = dirname(path);
  const fence: Fence = { folder, within: join(folder, own.within ?? '.') };
  const options = withPaths(file, fence);
  const parent =
    said.out ?? (options.out === undefined ? folder : insideOf(fence, options.out, placeOf('out')));
  const tune = insideOf(fence, own.tune, placeOf('tune'));
  refuseMissing(tune, placeOf('tune'));
  refuseText(options.to, placeOf('to'));
  const printing = await at(placeOf('font'), () =>
    printingOf({ to: ['pdf', 'midi'], ...options }, { kind: 'folder', path: parent }),
  );
  const { instrument, tuning, capo } = options;
  await at(placeOf('instrument'), () => chooseInstruments({ instrument }));
  await at(placeOf('tuning'), () => chooseInstruments({ instrument, tuning }));
  await at(placeOf('capo'), () => chooseInstruments({ instrument, tuning, capo }));
  const editions = editionsOf({ match: true, ...options });
  const job = toPlain({
    kind: 'lesson',
    choice: choiceOf(options),
    limits: limitsOf(said),
    ...editions,
    words: {
      lesson: own.lesson,
      group: own.class,
      notes: own.notes,
      language: own.language ?? 'en',
    },
    parts: own.parts ?? USUAL_PARTS,
    details: detailsOf(options),
    diagrams: diagramsOf(options),
    formats: printing.formats,
    style: printing.style,
  });
  return {
    kind: 'work',
    name: path,
    input: { ...fileInput(tune, basename(tune)), stem: stemOf(path) },
    folder: folderOf(path, parent),
    job,
    jobHash: jobHash(job),
    sources: [path, tune, ...ingredientsOf(options)],
    saidAt: saidAt(file),
  };
};

/** The folder that a lesson gets in another one: it has the name of its file. */
export const folderOf = (path: string, parent: string): string => join(parent, stemOf(path));

const stemOf = (path: string): string => basename(path, extname(path));

const saidAt = ({ options, placeOf, lineAt }: LessonFile): SaidAt =>
  Object.fromEntries(
    Object.entries(BLAMED).flatMap(([code, name]) => {
      const place = placeOf(name);
      return options[name] === undefined ? [] : [[code, { place, excerpt: lineAt(place) }]];
    }),
  );

const refuseMissing = (tune: string, place: DiagnosticPlace): void => {
  if (existsSync(tune)) return;
  throw new Refusal({
    severity: 'error',
    code: 'cannot-read',
    message: `there is no file ${tune}`,
    hint: 'name a MusicXML file, from the folder of this file',
    place,
  });
};

/** Diagrams and words have no sheets of fixed pitch here; the commands of their own write those. */
const refuseText = (to: LessonFile['options']['to'], place: DiagnosticPlace): void => {
  if (!to?.includes('text')) return;
  throw new Refusal({
    severity: 'error',
    code: 'lesson-bad-value',
    message: 'a lesson is not written as text',
    hint: `use some of ${listed(FORMATS.map(each => each.name).filter(name => name !== 'text'))}`,
    place,
  });
};

const detailsOf = (options: LessonFile['options']): LessonJob['details'] => {
  const {
    key,
    octaves,
    direction,
    pattern,
    metre: time,
    measures,
    grade,
    seed,
    focus,
    near,
    shapes,
  } = options;
  return {
    key,
    scale: { octaves, direction, pattern },
    drill: { time, measures, grade, seed, focus },
    chords: { near, shapes },
    cues: { every: options.every, strings: options.strings ?? 'names' },
  };
};

const diagramsOf = ({ show, upright, leftHanded }: LessonFile['options']): LessonJob['diagrams'] => ({
  ...(show && { show }),
  ...(upright && { upright }),
  ...(leftHanded && { leftHanded }),
});

const withPaths = ({ options, placeOf }: LessonFile, fence: Fence): LessonFile['options'] => ({
  ...options,
  ...(options.font !== undefined && { font: insideOf(fence, options.font, placeOf('font')) }),
  ...(options.instrument && {
    instrument: options.instrument.map(each =>
      isInstrumentFile(each) ? insideOf(fence, each, placeOf('instrument')) : each,
    ),
  }),
});

/** What is wrong usage on a command line is a fault of the file here. */
const at = async <T>(place: DiagnosticPlace, make: () => T | Promise<T>): Promise<T> => {
  try {
    return await make();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    const { message, hint } = error;
    throw new Refusal({
      severity: 'error',
      code: 'lesson-bad-value',
      // What is an option there is a key here.
      message: message.replace(/^--([a-z-]+)/, '"$1"'),
      ...(hint !== undefined && { hint }),
      place,
    });
  }
};
