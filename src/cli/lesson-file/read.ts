/** A lesson file as it is checked: what it says of itself, and the options that it sets. */

import type * as z from 'zod/mini';
import { type Diagnostic, type Place, Refusal } from '../../score/diagnostic.ts';
import { nearest } from '../nearest.ts';
import { checkValue, type Options } from '../options.ts';
import { KEYS, type Key, type LessonOption, type OWN_ROWS, type OwnName } from './keys.ts';
import { type Entry, entriesOf } from './source.ts';

export interface LessonFile {
  readonly path: string;
  readonly own: { readonly [K in OwnName]?: z.output<ReturnType<(typeof OWN_ROWS)[K]['schema']>> } & {
    readonly tune: string;
  };
  readonly options: Options<LessonOption>;
  /** Where a key's value stands; the start of the file for one that is not there. */
  readonly placeOf: (key: OwnName | LessonOption) => Place;
}

/** Reads the text of a lesson file. Throws a Refusal that lists all that is wrong in it. */
export const readLesson = (text: string, path: string): LessonFile => {
  const faults: Diagnostic[] = [];
  const own: Record<string, unknown> = {};
  const options: Record<string, unknown> = {};
  const places = new Map<string, Place>();
  for (const entry of entriesOf(text, path)) {
    const key = KEYS.find(each => each.name === entry.key);
    if (!key) {
      faults.push(unknownKey(entry));
      continue;
    }
    const { value, reasons } = valueFor(key, entry);
    if (reasons !== undefined) {
      faults.push(badValue(entry, reasons));
      continue;
    }
    const { from } = key;
    const name = from.kind === 'own' ? from.own : from.option;
    (from.kind === 'own' ? own : options)[name] = value;
    places.set(name, entry.valueAt);
  }
  if (faults.length === 0 && own.tune === undefined) faults.push(noTune(path));
  if (faults.length > 0) throw new Refusal(...faults);
  return {
    path,
    own: own as LessonFile['own'],
    options,
    placeOf: key => places.get(key) ?? { file: path },
  };
};

/** Checks a value as if it had been typed: what may be a list may be one text with commas. */
const valueFor = (
  { list, flag, schema }: Key,
  { value }: Entry,
): { readonly value?: unknown; readonly reasons?: string } => {
  if (value === undefined) return { reasons: 'write a value after the colon' };
  if (flag) return typeof value === 'boolean' ? { value } : { reasons: 'write true or false' };
  if (typeof value === 'object' && !list) return { reasons: 'write one value, not a list' };
  const text = typeof value === 'boolean' ? String(value) : value;
  return checkValue(
    schema(),
    list && typeof text === 'string' ? text.split(',').map(each => each.trim()) : text,
  );
};

const unknownKey = ({ key, keyAt }: Entry): Diagnostic => {
  const names = KEYS.map(each => each.name);
  const meant = nearest(key, names);
  return {
    severity: 'error',
    code: 'lesson-unknown-key',
    message: `there is no key "${key}" in a lesson`,
    hint: meant === undefined ? `there are ${names.join(', ')}` : `is "${meant}" meant?`,
    place: keyAt,
  };
};

const badValue = ({ key, value, valueAt }: Entry, reasons: string): Diagnostic => {
  const shown = typeof value === 'string' && value.length <= 60 ? `"${value.trim()}"` : 'this';
  return {
    severity: 'error',
    code: 'lesson-bad-value',
    message: `"${key}" does not take ${shown}`,
    hint: reasons,
    place: valueAt,
  };
};

const noTune = (file: string): Diagnostic => ({
  severity: 'error',
  code: 'lesson-without-tune',
  message: 'the lesson names no tune',
  hint: 'add a line such as "tune: my-tune.musicxml"',
  place: { file },
});
