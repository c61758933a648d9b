/** Whether a key may stand in a file, and its value behind it: checked as if it had been typed. */
import type * as z from 'zod/mini';
import type { Diagnostic, DiagnosticPlace } from '../../score/diagnostic.ts';
import { nearest } from '../../score/nearest.ts';
import { checkValue } from '../options/check.ts';
import type { Entry } from './entries.ts';
import type { Kind } from './kind.ts';

/** What a key takes. */
export interface Takes {
  /** A list, or one text with commas. */
  readonly list: boolean;
  /** True or false. */
  readonly flag: boolean;
  readonly schema: () => z.ZodMiniType;
}

export type Value =
  /** As it would be typed, and what it is checked to be. */
  | { readonly typed: unknown; readonly value: unknown; readonly fault?: never }
  | { readonly fault: Diagnostic };

/** The value of an entry, or what is wrong with it. */
export const valueFor = ({ list, flag, schema }: Takes, entry: Entry, kind: Kind): Value => {
  const { value, itemsAt } = entry;
  const wrong = (hint: string, shown = value, place = entry.valueAt): Value => ({
    fault: badValue(entry.key, shown, hint, place, kind),
  });
  if (value === undefined) {
    return wrong(entry.entries ? 'write its value on the same line' : 'write a value after the colon');
  }
  if (flag) return typeof value === 'boolean' ? { typed: value, value } : wrong('write true or false');
  if (typeof value === 'object' && !list) return wrong('write one value, not a list');
  const typed = list ? [value].flat().flatMap(each => String(each).split(COMMA)) : String(value);
  const { value: checked, reasons } = checkValue(schema(), typed);
  if (reasons === undefined) return { typed, value: checked };
  // The first item that is wrong by itself is the one to show.
  const items = typeof value === 'object' ? value : [];
  const bad = items.findIndex(item => checkValue(schema(), item.split(COMMA)).reasons !== undefined);
  return bad < 0 ? wrong(reasons) : wrong(reasons, items[bad], itemsAt[bad]);
};

const COMMA = /\s*,\s*/;

/** What is said of a key that may not stand there; `names` are those that may. */
export const unknownKey = ({ key, keyAt }: Entry, names: readonly string[], kind: Kind): Diagnostic => {
  const meant = nearest(key, names);
  return {
    severity: 'error',
    code: kind.unknownKey,
    message: `there is no key "${key}" here`,
    hint: meant === undefined ? `there are ${names.join(', ')}` : `is "${meant}" meant?`,
    place: keyAt,
  };
};

const badValue = (
  key: string,
  value: Entry['value'],
  hint: string,
  place: DiagnosticPlace,
  kind: Kind,
): Diagnostic => {
  const shown = typeof value === 'string' && value.length <= 60 ? `"${value.trim()}"` : 'this';
  return { severity: 'error', code: kind.badValue, message: `"${key}" does not take ${shown}`, hint, place };
};
