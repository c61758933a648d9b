/** From a lesson file to what is to be made of it. */
import { basename, dirname, extname, join } from 'node:path';
import { fileInput } from '../../batch/inputs.ts';
import type { LessonJob } from '../../batch/lesson.ts';
import { LIMITS } from '../../batch/run.ts';
import { USUAL_PARTS } from '../../lesson/pack/parts.ts';
import { type Place, Refusal } from '../../score/diagnostic.ts';
import { choiceOf } from '../choice.ts';
import { UsageError } from '../exit.ts';
import { chooseInstruments } from '../instruments.ts';
import { timeSignature } from '../lesson-options.ts';
import { printingOf } from '../output.ts';
import { rulesOf } from '../rule-options.ts';
import { type Fence, insideOf } from './paths.ts';
import type { LessonFile } from './read.ts';

export interface LessonTask {
  readonly job: LessonJob;
  /** The folder that its files go to. */
  readonly folder: string;
}

/** What the command line says about a lesson. */
export interface Said {
  /** Instead of the file's own, from the working folder. */
  readonly out: string | undefined;
}

/** Throws a Refusal that names the line of what cannot be done. */
export const taskOf = async (file: LessonFile, { out }: Said): Promise<LessonTask> => {
  const { path, own, placeOf } = file;
  const folder = dirname(path);
  const fence: Fence = { folder, within: join(folder, own.within ?? '.') };
  const options = withPaths(file, fence);
  const stem = basename(path, extname(path));
  const parent = out ?? (options.out === undefined ? folder : insideOf(fence, options.out, placeOf('out')));
  const tune = insideOf(fence, own.tune, placeOf('tune'));
  const printing = await at(placeOf('font'), () =>
    printingOf({ to: ['pdf', 'midi'], ...options }, { kind: 'folder', path: parent }),
  );
  const { layout } = printing.style;
  const lesson = own.lesson ?? basename(own.tune, extname(own.tune));
  return {
    folder: join(parent, stem),
    job: {
      stem,
      tune: fileInput(tune, basename(tune)),
      choice: choiceOf(options),
      limits: LIMITS,
      instruments: await at(placeOf('instrument'), () => chooseInstruments(options)),
      rules: rulesOf(options),
      transpose: options.transpose ?? 0,
      match: options.match ?? true,
      words: {
        lesson,
        group: own.class,
        notes: own.notes,
        language: own.language ?? 'en',
      },
      parts: own.parts ?? USUAL_PARTS,
      details: detailsOf(options),
      diagrams: diagramsOf(options),
      formats: printing.formats,
      // Sheets of a pack say what they belong to; a blank keeps the room for the page number.
      style: {
        ...printing.style,
        layout: { ...layout, footer: layout.footer ?? [own.class, lesson].filter(Boolean).join(' · ') },
      },
    },
  };
};

const detailsOf = (options: LessonFile['options']): LessonJob['details'] => ({
  key: options.key,
  scale: options,
  drill: { ...options, time: options.metre && timeSignature(options.metre) },
  chords: options,
  cues: { every: options.every, strings: options.strings ?? 'names' },
});

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
      each.endsWith('.json') ? insideOf(fence, each, placeOf('instrument')) : each,
    ),
  }),
});

/** What is wrong usage on a command line is a fault of the file here. */
const at = async <T>(place: Place, make: () => T | Promise<T>): Promise<T> => {
  try {
    return await make();
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    const { message, hint } = error;
    throw new Refusal({
      severity: 'error',
      code: 'lesson-bad-value',
      message,
      ...(hint !== undefined && { hint }),
      place,
    });
  }
};
