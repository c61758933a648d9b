/** A lesson file as it is checked: what it says of itself, and the options that it sets. */
import { basename } from 'node:path';
import type * as z from 'zod/mini';
import { isTuneFile } from '../../batch/paths.ts';
import { type Diagnostic, type DiagnosticPlace, Refusal } from '../../score/diagnostic.ts';
import { CONFIG_NAME } from '../config/find.ts';
import type { Options } from '../options/options.ts';
import { unknownKey, valueFor } from '../yaml/check.ts';
import { entriesOf, refusalIn } from '../yaml/entries.ts';
import { LESSON } from '../yaml/kind.ts';
import { KEYS, type LessonOption, type OWN_ROWS, type OwnName } from './keys.ts';

export interface LessonFile {
  readonly path: string;
  readonly own: { readonly [K in OwnName]?: z.output<ReturnType<(typeof OWN_ROWS)[K]['schema']>> } & {
    readonly tune: string;
  };
  readonly options: Options<LessonOption>;
  /** Where a key's value stands; the start of the file for one that is not there. */
  readonly placeOf: (key: OwnName | LessonOption) => DiagnosticPlace;
  /** The text of the line at a place. */
  readonly lineAt: (place: DiagnosticPlace) => string;
}

/** Reads the text of a lesson file. Throws a Refusal that lists all that is wrong in it. */
export const readLesson = (text: string, path: string): LessonFile => {
  if (isTuneFile(path)) throw new Refusal(tuneFor(path));
  if (basename(path) === CONFIG_NAME) throw new Refusal(optionsFor(path));
  const faults: Diagnostic[] = [];
  const own: Record<string, unknown> = {};
  const options: Record<string, unknown> = {};
  const places = new Map<string, DiagnosticPlace>();
  for (const entry of entriesOf(text, path, LESSON)) {
    const key = KEYS.find(each => each.name === entry.key);
    if (!key) {
      const names = KEYS.map(each => each.name);
      faults.push(unknownKey(entry, names, LESSON));
      continue;
    }
    const found = valueFor(key, entry, LESSON);
    if (found.fault) {
      faults.push(found.fault);
      continue;
    }
    const { from } = key;
    const name = from.kind === 'own' ? from.own : from.option;
    (from.kind === 'own' ? own : options)[name] = found.value;
    places.set(name, entry.valueAt);
  }
  if (faults.length === 0 && own.tune === undefined) faults.push(noTune(path));
  if (faults.length > 0) throw refusalIn(text, faults);
  return {
    path,
    own: own as LessonFile['own'],
    options,
    placeOf: key => places.get(key) ?? { file: path },
    lineAt: ({ line = 0 }) => text.split('\n')[line - 1]?.trim() ?? '',
  };
};

const tuneFor = (file: string): Diagnostic => ({
  severity: 'error',
  code: LESSON.broken,
  message: 'this is a tune, and no lesson file',
  hint: `fretward lesson --init monday.yaml --for ${file} begins a lesson on it; fretward arrange ${file} arranges it alone`,
  place: { file },
});

const optionsFor = (file: string): Diagnostic => ({
  severity: 'error',
  code: LESSON.broken,
  message: 'this file holds options for tunes, and is no lesson file',
  hint: 'name the lesson files, or their folder',
  place: { file },
});

const noTune = (file: string): Diagnostic => ({
  severity: 'error',
  code: 'lesson-without-tune',
  message: 'the lesson names no tune',
  hint: 'add a line such as "tune: my-tune.musicxml"',
  place: { file },
});
