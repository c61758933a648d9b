/** From what was typed to checked values, or to words that say what an option takes. */
import type * as z from 'zod/mini';
import { INSTRUMENTS } from '../../instrument/catalogue.ts';
import { nearest } from '../../score/nearest.ts';
import { UsageError } from '../exit.ts';
import { OPTIONS, type OptionName, type Options } from './options.ts';
import { flagOf, type OptionRow } from './row.ts';
import { wordsTaken } from './values.ts';

/** Checks what was typed. Throws a UsageError that names the option and what it takes. */
export const checkOptions = <Name extends OptionName>(
  typed: Readonly<Record<string, unknown>>,
  names: readonly Name[],
): Options<Name> => {
  const checked: Record<string, unknown> = {};
  for (const name of names) {
    if (typed[name] === undefined) continue;
    const row: OptionRow = OPTIONS[name];
    const { value, reasons } = checkValue(row.schema(), typed[name]);
    if (reasons !== undefined) {
      throw new UsageError(`${flagOf(row)} does not take "${String(typed[name])}"`, reasons);
    }
    checked[name] = value;
  }
  return checked as Options<Name>;
};

/** What a value is checked to be, or the reasons why it is none, in words that say what is taken. */
export type Checked = { readonly value?: unknown; readonly reasons?: string };

/** Checks a value as it was typed. */
export const checkValue = (schema: z.ZodMiniType, typed: unknown): Checked => {
  const result = schema.safeParse(typed);
  if (result.success) return { value: result.data };
  const lowered = inLowerCase(typed, wordsTaken(schema));
  const again = lowered === typed ? result : schema.safeParse(lowered);
  if (again.success) return { value: again.data };
  const apart = Array.isArray(typed) ? typed.flatMap(each => String(each).trim().split(/\s+/)) : [];
  if (schema.safeParse(apart).success) return { reasons: `put commas between: ${apart.join(',')}` };
  const words = wordsTaken(schema);
  const wrong = [typed].flat().find(each => !words.includes(String(each)));
  const meant = nearest(String(wrong), words);
  const reasons = [...new Set(result.error.issues.map(issue => issue.message))].join('; ');
  return { reasons: meant === undefined ? reasons : `is ${meant} meant? ${reasons}` };
};

/** The words among what was typed as they are listed: "A4" is a4. */
const inLowerCase = (typed: unknown, words: readonly string[]): unknown => {
  if (Array.isArray(typed)) {
    const all = typed.map(each => inLowerCase(each, words));
    return all.some((each, index) => each !== typed[index]) ? all : typed;
  }
  const word = String(typed).toLowerCase();
  return words.includes(word) ? word : typed;
};

/** The words that an option takes; none where it takes numbers, notes or names. */
export const wordsFor = (name: OptionName): readonly string[] => {
  if (name === 'instrument') return INSTRUMENTS.map(each => each.id);
  const row: OptionRow = OPTIONS[name];
  return wordsTaken(row.schema());
};
