/** A lesson file as it is checked: what it says of itself, and the options that it sets. */

import type * as z from 'zod/mini';
import { type Diagnostic, type Place, Refusal } from '../../score/diagnostic.ts';
import { nearest } from '../nearest.ts';
import { checkValue, type Options } from '../options/options.ts';
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
    const { value, fault } = valueFor(key, entry);
    if (fault) {
      faults.push(fault);
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
  entry: Entry,
): { readonly value?: unknown; readonly fault?: Diagnostic } => {
  const { value, itemsAt } = entry;
  const wrong = (reasons: string, shown = value, place = entry.valueAt) => ({
    fault: badValue(entry.key, shown, reasons, place),
  });
  if (value === undefined) return wrong('write a value after the colon');
  if (flag) return typeof value === 'boolean' ? { value } : wrong('write true or false');
  if (typeof value === 'object' && !list) return wrong('write one value, not a list');
  const typed = list ? [value].flat().flatMap(each => String(each).split(COMMA)) : String(value);
  const { value: checked, reasons } = checkValue(schema(), typed);
  if (reasons === undefined) return { value: checked };
  // The first item that is wrong by itself is the one to show.
  const items = typeof value === 'object' ? value : [];
  const bad = items.findIndex(item => checkValue(schema(), item.split(COMMA)).reasons !== undefined);
  return bad < 0 ? wrong(reasons) : wrong(reasons, items[bad], itemsAt[bad]);
};

const COMMA = /\s*,\s*/;

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

const badValue = (key: string, value: Entry['value'], hint: string, place: Place): Diagnostic => {
  const shown = typeof value === 'string' && value.length <= 60 ? `"${value.trim()}"` : 'this';
  return {
    severity: 'error',
    code: 'lesson-bad-value',
    message: `"${key}" does not take ${shown}`,
    hint,
    place,
  };
};

const noTune = (file: string): Diagnostic => ({
  severity: 'error',
  code: 'lesson-without-tune',
  message: 'the lesson names no tune',
  hint: 'add a line such as "tune: my-tune.musicxml"',
  place: { file },
});
